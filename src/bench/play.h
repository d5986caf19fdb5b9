#pragma once

#include "bench/capture.h"
#include "bench/watch.h"

namespace coilward {

/// Plays a whole capture through the driver, at once: each reading with the capture's own times, for what the
/// capture's meter was set. Throws CannotMeasure where the driver cannot do that.
WatchEnd play(
    const Driver&, const Capture&, const std::function<void(const StampedReading&)>& each,
    const std::function<bool()>& stop = [] { return false; });

} // namespace coilward
