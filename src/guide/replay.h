#pragma once

#include "bench/settling.h"
#include "guide/bench_meter.h"

#include <optional>
#include <vector>

namespace coilward {

/// A stretch of a capture during which the meter was set in one way.
struct RecordedPart {
    std::optional<MeasurementRequest> request; ///< nothing: the meter as it was set
    Capture capture;
};

/// A capture cut where set-up commands were sent after a poll; there is at least one part. Each part's
/// request is what its commands set up, else the heading's; its points and coil are the heading's.
std::vector<RecordedPart> recorded_parts(const Capture&, const Driver&);

/// What a replayed meter gives, one entry a part, in the capture's order. Where a part ends before a reading
/// had settled, what there was is judged as it is: one number, their mean, or unstable. Throws CannotMeasure.
std::vector<Measured> replayed(const BenchMeter&, const SettlingRule&);

} // namespace coilward
