#pragma once

#include <cmath>
#include <numbers>

namespace coilward {

/// Half the central 95 % of a normal distribution, in standard deviations.
inline constexpr double half_width_95 = 1.959964;

/// Density of the standard normal distribution at z standard deviations.
inline double normal_density(double z) {
    return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
}

/// Probability at or below z standard deviations. Accurate in both tails.
inline double normal_cumulative(double z) {
    return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

/// ln of the normal density of a number with that mean and deviation (above 0), per unit of the number.
inline double log_normal_density(double value, double mean, double deviation) {
    const double z = (value - mean) / deviation;
    return -0.5 * z * z - std::log(deviation) - 0.5 * std::log(2.0 * std::numbers::pi);
}

} // namespace coilward
