#pragma once

#include <cmath>
#include <numbers>

namespace coilward {

/// Half the central 95 % of a normal distribution, in standard deviations.
inline constexpr double half_width_95 = 1.959964;

/// Of the standard normal distribution.
inline double normal_density(double z) {
    return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
}

/// Accurate in both tails.
inline double normal_cumulative(double z) {
    return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

/// ln of the normal density of a number with that mean and deviation.
inline double log_normal_density(double value, double mean, double deviation) {
    const double z = (value - mean) / deviation;
    return -0.5 * z * z - std::log(deviation) - 0.5 * std::log(2.0 * std::numbers::pi);
}

} // namespace coilward
