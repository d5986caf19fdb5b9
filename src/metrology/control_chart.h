#pragma once

#include <array>
#include <span>
#include <string>
#include <vector>

/// The chart of individual values and moving ranges (ISO 7870-2:2013, clause 6: control charts for
/// individuals).
namespace coilward {

/// Of the range of two normal values of deviation 1: its mean d2 = 2/√π and its deviation d3 = √(2 − 4/π).
inline constexpr double range_mean_of_two = 1.1283791670955126;      ///< d2
inline constexpr double range_deviation_of_two = 0.8525024664274217; ///< d3

/// Values in the order in which they arose, and what may be expected of them as long as nothing but chance is
/// at work.
struct ControlChart {
    std::vector<double> values;        ///< in one unit, which is that of all that follows
    std::vector<double> moving_ranges; ///< one fewer: between each value and the one before it
    double mean = 0.0;
    double mean_range = 0.0;        ///< of moving_ranges
    double deviation = 0.0;         ///< mean range / d2: what chance alone does from one value to the next
    double lower_limit = 0.0;       ///< mean − 3 deviations
    double upper_limit = 0.0;       ///< mean + 3 deviations
    double upper_range_limit = 0.0; ///< D4 · mean range, D4 = 1 + 3 d3 / d2
};

/// Throws std::invalid_argument for fewer than two values, or one that is not finite.
ControlChart control_chart(std::span<const double> values);

/// Signs that more than chance is at work. Each has a name, what it means, and how often chance alone would
/// show it at one point.
struct DriftRule {
    const char* name;    ///< as documents have it
    const char* says;    ///< what the point does, in words
    double false_alarms; ///< per point, of independent normal values
};

/// One point beyond a limit (ISO 7870-2); nine in a row on one side of the mean; six in a row that rise, or
/// fall. The last two are tests 2 and 3 of L. S. Nelson, Journal of Quality Technology 16 (1984) 237-239.
inline constexpr std::array<DriftRule, 4> drift_rules{{
    {"beyond-limit", "beyond three deviations from the mean", 0.0027},
    {"range-beyond-limit", "differs from the one before it by more than the range's limit", 0.0092},
    {"one-side", "the ninth in a row on the same side of the mean", 0.0039},
    {"trend", "the sixth in a row that rises, or falls", 0.0028},
}};

/// A rule that a point breaks.
struct DriftSign {
    std::size_t point = 0; ///< place among the values, from 0
    std::size_t rule = 0;  ///< place among drift_rules
};

/// In the order of the points.
std::vector<DriftSign> drift_signs(const ControlChart&);

} // namespace coilward
