#include "metrology/accuracy.h"

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string_view>

#include <fmt/format.h>

namespace coilward {
namespace {

double require_positive(double number, std::string_view what) {
    if (number > 0.0 && std::isfinite(number)) return number;
    throw std::invalid_argument(
        fmt::format("{} of {} has no accuracy specification; give one above 0", what, number));
}

/// D for the reactive part, Q for the resistive one: the other part relative to the specified one.
double other_part(ImpedancePart part, double quality_factor) {
    const double q = require_positive(quality_factor, "a quality factor");
    return part == ImpedancePart::reactive ? 1.0 / q : q;
}

double range_factor(const LcrAccuracy& accuracy, double impedance_ohm) {
    const double x = require_positive(impedance_ohm, "an impedance");
    if (accuracy.middle_range_to_ohm > 0.0 && x > accuracy.middle_range_to_ohm)
        return x / accuracy.middle_range_to_ohm;
    if (x < accuracy.middle_range_from_ohm) return accuracy.middle_range_from_ohm / x;
    return 1.0 + accuracy.voltage_factor;
}

} // namespace

double half_width(const Accuracy& accuracy, double reading) {
    return accuracy.percent_of_reading / 100.0 * std::abs(reading) + accuracy.counts * accuracy.least_digit;
}

double low_quality_factor_multiplier(ImpedancePart part, double quality_factor) {
    const double other = other_part(part, quality_factor);
    return other > 0.1 ? std::hypot(1.0, other) : 1.0;
}

double lcr_accuracy_percent(const LcrAccuracy& accuracy, ImpedancePart part, double impedance_ohm,
                            double quality_factor) {
    const double mode = 1.0 + accuracy.speed_factor + accuracy.cable_factor;
    return accuracy.fixed_percent + accuracy.scaled_percent * range_factor(accuracy, impedance_ohm) *
                                        (1.0 + other_part(part, quality_factor)) * mode;
}

double series_quality_factor(double frequency_hz, double inductance_h, double resistance_ohm) {
    return 2.0 * std::numbers::pi * frequency_hz * inductance_h /
           require_positive(resistance_ohm, "a resistance");
}

} // namespace coilward
