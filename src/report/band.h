#pragma once

#include "units/range.h"

#include <string>

namespace coilward {

/// A range as a line of characters with a reading on it: `   ├──────●─────┤   `. The range takes the middle
/// half of `width` columns; the reading's uncertainty (±2 standard deviations) is drawn where it is wider
/// than a column, and a reading beyond the picture is an arrow at its edge.
std::string band(double measured, double standard_uncertainty, Range expected, int width);

/// A share of 1 (0 to 1) as a bar of at most `width` columns, in eighths of a column.
std::string bar(double share, int width);

} // namespace coilward
