#pragma once

#include "bench/meter_session.h"

#include <chrono>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>

namespace coilward {

/// A while without a reading.
struct Quiet {
    std::chrono::milliseconds lasted{0}; ///< since the last reading, or the beginning
    std::size_t bytes = 0;               ///< that arrived in it and made no reading
    std::string note;                    ///< what the last frame among them said about itself; may be empty
};

/// What is watched, and for how long.
struct WatchOrder {
    std::optional<MeasurementRequest> request;         ///< absent: the meter as it is set
    std::optional<std::size_t> count;                  ///< readings; absent: until the link is over
    std::chrono::milliseconds patience{10000};         ///< of silence; zero: for ever
    std::function<bool()> stop = [] { return false; }; ///< asked a few times a second
    std::function<void(const Quiet&)> quiet = [](const Quiet&) {}; ///< told as often
};

/// How a watch ended.
struct WatchEnd {
    /// What ended it: the count, `stop`, the patience, or the link as LinkOutcome has it.
    enum class Why { counted, stopped, silent, unplugged, ended };
    Why why = Why::counted;       ///< which of them
    std::size_t readings = 0;     ///< that were handed on
    std::size_t silent_bytes = 0; ///< with `silent`: bytes that arrived and made no reading
    VerdictCounts counts;         ///< of all bytes of the watch
    std::string last_note;        ///< as MeterSession::last_note
};

/// Prepares the session and hands each reading on as it arrives, until the count is reached, the link is
/// over, the meter stays silent, or `stop` says so. Throws CannotMeasure and TransportError.
WatchEnd watch(MeterSession&, const WatchOrder&, const std::function<void(const StampedReading&)>& each);

/// One reading as `coilward watch --json` prints it: the readings form with "at" and "meter". Throws
/// std::invalid_argument for a number that is not finite.
std::string watch_line(const StampedReading&);

} // namespace coilward
