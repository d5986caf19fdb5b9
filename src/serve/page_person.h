#pragma once

#include "guide/person.h"
#include "serve/examination_board.h"
#include "serve/meter_desk.h"

#include <functional>
#include <vector>

namespace coilward {

/// The person at the bench, by way of the pages that are open: shows each instruction on the board, with the
/// meter live beside it, and waits until the reading has settled or somebody answers.
class PagePerson : public Person {
public:
    /// `meters` are those of the examination, in the desk's order. `in_json` is how the board takes a
    /// diagnosis.
    PagePerson(ExaminationBoard& board, MeterDesk& desk, std::vector<BenchMeter>& meters,
               std::function<std::string(const Diagnosis&)> in_json)
        : board_(board), desk_(desk), meters_(meters), in_json_(std::move(in_json)) {}

    Reply place(const Instruction&) override;
    Told tell(const Instruction&) override;
    Reply mend(const std::string& trouble) override;
    void hear(const std::string&) override;
    void learn(const Diagnosis&) override;
    bool see(const StampedReading&) override;

    /// Gives the meter that was used last back to the desk.
    void put_away();

private:
    /// Where the probes are.
    struct Clipped {
        std::size_t meter;
        Between between;
    };

    std::size_t meter_for(const Instruction&) const;
    void take_up(std::size_t meter);
    BoardReply watch_until_ready(std::size_t meter, const Instruction&);
    Reply go_on(const BoardReply&);

    ExaminationBoard& board_;
    MeterDesk& desk_;
    std::vector<BenchMeter>& meters_;
    std::function<std::string(const Diagnosis&)> in_json_;
    std::optional<std::size_t> in_use_;
    std::optional<Clipped> clipped_;
    bool kick_is_watched_ = false;
    std::optional<BoardReply> broke_off_; ///< the answer that ended the watch for a kick
};

} // namespace coilward
