#pragma once

#include "bench/watch.h"

#include <deque>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace coilward {

/// How readings are shown: documents for programs, a line a reading, or one line a meter that stands still.
enum class WatchForm { json, lines, screen };

/// One meter that is watched, and what it shows.
struct WatchRow {
    std::string meter;                                        ///< the driver's id
    std::string port;                                         ///< as the person named it
    std::vector<Quantity> wanted;                             ///< empty: whatever the meter is set to
    std::optional<std::size_t> count;                         ///< of readings that are asked for
    std::vector<std::pair<std::string, std::string>> shown{}; ///< what, and its latest reading
    std::string state{};                                      ///< in plain words; empty while all is well
    std::string told{};          ///< why it is quiet, where that was said already
    std::size_t readings = 0;    ///< so far
    std::deque<Moment> recent{}; ///< of the latest readings, for the rate
};

/// "dmm-scpi on /dev/ttyUSB0  DC resistance: 6.112 kΩ  2.0/s  3 of 10  over range"
std::string row_words(const WatchRow&);

/// Where several meters are shown as they are watched. Each meter has a thread of its own.
class WatchView {
public:
    /// One row a meter, in the order of the calls below, which name it from 0.
    WatchView(std::vector<WatchRow>, WatchForm);

    /// A reading came: to standard output.
    void take(std::size_t row, const StampedReading&);

    /// None came for a while: said once it has lasted, or where the meter says why.
    void take(std::size_t row, const Quiet&);

    /// The device is gone and is waited for.
    void lost(std::size_t row);

    /// It is there again.
    void back(std::size_t row);

private:
    void say(std::size_t row, const std::string& state);
    void redraw();

    std::mutex mutex_;
    std::vector<WatchRow> rows_;
    WatchForm form_;
    bool drawn_ = false;
};

} // namespace coilward
