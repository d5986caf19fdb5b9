#include "coil/air_core.h"

#include "coil/gauss.h"
#include "coil/mutual_inductance.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {
namespace {

using std::numbers::pi;

/// Mutual inductance of two filaments with the logarithm of their distance taken out.
double without_logarithm(const WindingSection& section, double one_depth, double other_depth, double axial) {
    const Outline one = outside(section.innermost, one_depth);
    const Outline other = outside(section.innermost, other_depth);
    const double mean_length = (turn_length_m(one) + turn_length_m(other)) / 2.0;
    return mutual_inductance_h(one, other, axial) + magnetic_constant_h_per_m / (2.0 * pi) * mean_length *
                                                        std::log(std::hypot(one_depth - other_depth, axial));
}

} // namespace

double nagaoka_coefficient(double length_over_diameter) {
    if (!(length_over_diameter > 0.0))
        throw std::invalid_argument(
            fmt::format("a coil of length over diameter {} is none; give one above 0", length_over_diameter));
    const double k2 = 1.0 / (1.0 + length_over_diameter * length_over_diameter);
    const double k = std::sqrt(k2);
    const double kp = length_over_diameter * k;
    const double first = std::comp_ellint_1(k);
    const double second = std::comp_ellint_2(k);
    return 4.0 / (3.0 * pi * kp) * (kp * kp / k2 * (first - second) + second - k);
}

double current_sheet_henry_per_turn2(double diameter_m, double length_m) {
    return magnetic_constant_h_per_m * pi * diameter_m * diameter_m / (4.0 * length_m) *
           nagaoka_coefficient(length_m / diameter_m);
}

double mean_distance_of_rectangle_m(double depth_m, double height_m) {
    const double ratio = depth_m / height_m;
    const double square = ratio * ratio;
    const double logarithm = 0.5 * std::log(depth_m * depth_m + height_m * height_m) -
                             square / 12.0 * std::log1p(1.0 / square) - std::log1p(square) / (12.0 * square) +
                             2.0 / 3.0 * (ratio * std::atan(1.0 / ratio) + std::atan(ratio) / ratio) -
                             25.0 / 12.0;
    return std::exp(logarithm);
}

double air_core_henry_per_turn2(const WindingSection& section) {
    const double depth = section.depth_m;
    const double height = section.height_m;
    if (!(depth > 0.0 && height > 0.0))
        throw std::invalid_argument(fmt::format(
            "a winding {} m deep and {} m high is none; give both above 0, in metre", depth, height));
    // Two filaments of the section are z apart along the axis with the density 2 (h − z) / h².
    const auto mean_over_axis = [&](double one, double other) {
        const auto weighed = [&](double z) {
            return 2.0 * (height - z) / (height * height) * without_logarithm(section, one, other, z);
        };
        const double middle = std::min(height / 3.0, depth);
        return integral(0.0, middle, weighed) + integral(middle, height, weighed);
    };
    double smooth = 0.0;
    for (const auto& one : gauss_nodes) // twice the pairs in which the second lies outside of the first
        for (const auto& other : gauss_nodes)
            if (one.place <= other.place)
                smooth += one.weight * other.weight * (one.place < other.place ? 2.0 : 1.0) / 4.0 *
                          mean_over_axis(depth / 2.0 * (1.0 + one.place), depth / 2.0 * (1.0 + other.place));
    const double mean_length = turn_length_m(outside(section.innermost, depth / 2.0));
    return smooth - magnetic_constant_h_per_m / (2.0 * pi) * mean_length *
                        std::log(mean_distance_of_rectangle_m(depth, height));
}

} // namespace coilward
