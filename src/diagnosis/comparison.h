#pragma once

#include "diagnosis/coil_prior.h"
#include "diagnosis/diagnosis.h"

namespace coilward {

/// The central 95 % of a quantity, in its unit: log-normal where the value is positive, normal where not.
Range central_95(double value, double deviation);

/// What healthy coils of this prior show of a reading at `temperature_c`, with a number or without; nothing
/// for what no circuit predicts. In the quantity's SI unit, without the meter's uncertainty. Throws as
/// impedance() does.
std::optional<Range> expected_of(const Reading&, const CoilPrior&, double temperature_c);

/// A reading with a number (it must have one) beside the range that is expected of it.
Comparison comparison_with(const Reading&, Range expected, const Rules&);

/// Each number read, but for temperatures and voltages, beside what healthy coils of this prior show at
/// `temperature_c`. Throws as impedance() does.
std::vector<Comparison> comparisons_of(const std::vector<Reading>&, const CoilPrior&, double temperature_c,
                                       const Rules&);

} // namespace coilward
