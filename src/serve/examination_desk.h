#pragma once

#include "guide/examine.h"
#include "serve/examination_board.h"
#include "serve/meter_desk.h"

#include <functional>
#include <mutex>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

namespace coilward {

/// An examination that cannot begin. One line.
struct CannotExamine : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Carries out one examination after another in a thread of its own. A page that is closed or reloaded
/// changes nothing; what was read is in the history.
class ExaminationDesk {
public:
    /// `open_history` gives each examination its own connection. All of it must outlive the desk.
    ExaminationDesk(const Rules& rules, std::function<History()> open_history, MeterDesk& meters,
                    ExaminationBoard& board)
        : rules_(rules), open_history_(std::move(open_history)), meters_(meters), board_(board) {}

    ~ExaminationDesk();
    ExaminationDesk(const ExaminationDesk&) = delete;
    ExaminationDesk& operator=(const ExaminationDesk&) = delete;

    /// Begins. Throws CannotExamine where another one is going on, or the rules do not know the coil.
    void begin(const CoilOnBench&, const std::vector<Reading>& told);

    /// Takes a finished examination off the board. Throws CannotExamine where it still goes on.
    void clear();

private:
    void carry_out(const CoilOnBench&, const std::vector<Reading>& told);
    bool goes_on() const;

    const Rules& rules_;
    std::function<History()> open_history_;
    MeterDesk& meters_;
    ExaminationBoard& board_;
    std::mutex beginning_;
    std::thread thread_;
};

} // namespace coilward
