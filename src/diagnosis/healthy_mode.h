#pragma once

#include "diagnosis/mode.h"

#include <vector>

namespace coilward {

/// The mode of a healthy coil, the best that is found from these starts and, where a reading was taken near a
/// coil's resonance, from both sides of it; abandoned where none reaches `hopeless` (mode.h).
Mode healthy_mode(const CoilPrior&, const Evidence&, double hopeless, const std::vector<Values>& starts);

/// The same from the middle of the prior.
Mode healthy_mode(const CoilPrior&, const Evidence&, double hopeless);

} // namespace coilward
