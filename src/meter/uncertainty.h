#pragma once

#include "meter/driver.h"
#include "reading/reading.h"

#include <optional>

namespace coilward {

/// The standard uncertainty of a number by the driver's accuracy rows and the step of its last digit; nothing
/// where no row covers the quantity and frequency. `quality_factor` is needed by rows that depend on it; such
/// a row without it gives nothing, because at low Q it would claim too much. In the unit of the number; the
/// row is taken as the half-width of a rectangular distribution (JCGM 100:2008, 4.3.7).
std::optional<double> standard_uncertainty(const Driver&, const DecodedReading&,
                                           std::optional<double> quality_factor);

/// Q of what was measured, from one frame's own readings where they tell it: Q itself, 1/D, or 2πfL/R in
/// series, R/(2πfL) in parallel. Nothing where they do not.
std::optional<double> quality_factor_of(const DecodedReadings&);

} // namespace coilward
