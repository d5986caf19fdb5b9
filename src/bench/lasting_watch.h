#pragma once

#include "bench/watch.h"

#include <functional>

namespace coilward {

/// What a lasting watch tells as it goes. All three must be there.
struct WatchListener {
    std::function<void(const StampedReading&)> reading; ///< each, as it arrives
    std::function<void()> lost;                         ///< the device is gone and is waited for
    std::function<void()> back;                         ///< the device is there again
};

/// Watches a live port and goes on by itself where its device is unplugged and returns within the order's
/// patience. `open` gives the link anew each time; it may throw TransportError, which ends the watch the
/// first time only. The session is told what to measure anew, since the meter may have lost its power. Throws
/// CannotMeasure, and TransportError where the line itself fails.
WatchEnd watch_lasting(const Driver&, const std::function<Link()>& open, WatchOrder, const WatchListener&);

} // namespace coilward
