#pragma once

#include "rewind/coil_comparison.h"

namespace coilward {

/// Of the first two coils of a comparison, from their inductance where both were read at one frequency, else
/// from their DC resistance; nothing where neither is there. A hum that comes from afar is the same field at
/// both coils, and each turn picks up as much as any other of the same area.
std::optional<HumCancelling> hum_cancelling(const CoilComparison&);

} // namespace coilward
