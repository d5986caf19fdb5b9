#pragma once

#include "diagnosis/coil_prior.h"
#include "diagnosis/diagnosis.h"

namespace coilward {

/// Each number read, beside what healthy coils of this prior show at `temperature_c`.
std::vector<Comparison> comparisons_of(const std::vector<Reading>&, const CoilPrior&, double temperature_c);

} // namespace coilward
