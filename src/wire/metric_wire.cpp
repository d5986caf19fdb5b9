#include "wire/metric_wire.h"

#include "wire/copper.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace coilward {
namespace {

constexpr MetricWire millimetre(double nominal, double grade1_minimum, double grade1_maximum,
                                double grade2_minimum, double grade2_maximum) {
    return {nominal * 1e-3, grade1_minimum * 1e-3, grade1_maximum * 1e-3, grade2_minimum * 1e-3,
            grade2_maximum * 1e-3};
}

constexpr std::array<MetricWire, 12> sizes{
    millimetre(0.030, 0.033, 0.037, 0.038, 0.041), millimetre(0.032, 0.035, 0.039, 0.040, 0.043),
    millimetre(0.040, 0.044, 0.049, 0.050, 0.054), millimetre(0.045, 0.050, 0.055, 0.056, 0.061),
    millimetre(0.050, 0.055, 0.060, 0.061, 0.066), millimetre(0.053, 0.058, 0.064, 0.065, 0.070),
    millimetre(0.056, 0.062, 0.067, 0.068, 0.074), millimetre(0.060, 0.066, 0.072, 0.073, 0.079),
    millimetre(0.063, 0.069, 0.076, 0.077, 0.083), millimetre(0.071, 0.078, 0.084, 0.085, 0.091),
    millimetre(0.075, 0.082, 0.089, 0.090, 0.095), millimetre(0.080, 0.087, 0.094, 0.095, 0.101),
};

/// Tolerance of resistance by nominal diameter; thicker wire has a tolerance of diameter instead.
std::optional<double> resistance_tolerance(double nominal_diameter_m) {
    if (nominal_diameter_m < 0.036e-3) return 0.10;
    if (nominal_diameter_m < 0.0475e-3) return 0.097;
    if (nominal_diameter_m < 0.058e-3) return 0.09;
    if (nominal_diameter_m < 0.065e-3) return 0.08;
    return std::nullopt;
}

} // namespace

std::span<const MetricWire> metric_wires() {
    return sizes;
}

std::optional<MetricWire> metric_wire(double nominal_diameter_m) {
    const auto found = std::ranges::find_if(sizes, [&](const MetricWire& size) {
        return std::abs(size.nominal_diameter_m - nominal_diameter_m) < 1e-7;
    });
    if (found == sizes.end()) return std::nullopt;
    return *found;
}

WireLimits metric_resistance_limits_ohm_per_m(const MetricWire& wire) {
    const double diameter = wire.nominal_diameter_m;
    const double nominal = ohm_per_metre_20(diameter, winding_wire_conductivity_s_per_m);
    if (const auto tolerance = resistance_tolerance(diameter))
        return {.minimum = nominal * (1.0 - *tolerance),
                .nominal = nominal,
                .maximum = nominal * (1.0 + *tolerance)};
    constexpr double diameter_tolerance_m = 3e-6;
    return {.minimum = ohm_per_metre_20(diameter + diameter_tolerance_m, 59e6),
            .nominal = nominal,
            .maximum = ohm_per_metre_20(diameter - diameter_tolerance_m, 58e6)};
}

} // namespace coilward
