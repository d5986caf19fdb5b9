#include "metrology/half_width.h"

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string_view>

#include <fmt/format.h>

namespace coilward {
namespace {

double require_not_negative(double number, std::string_view what) {
    if (number >= 0.0 && std::isfinite(number)) return number;
    throw std::invalid_argument(fmt::format("{} of {} is impossible; give 0 or more", what, number));
}

double divisor(ErrorShape shape) {
    switch (shape) {
    case ErrorShape::rectangular:
        return std::numbers::sqrt3;
    case ErrorShape::triangular:
        return std::numbers::sqrt2 * std::numbers::sqrt3;
    case ErrorShape::arcsine:
        return std::numbers::sqrt2;
    case ErrorShape::normal_k2:
        return 2.0;
    case ErrorShape::normal_95:
        return 1.959963984540054;
    }
    throw std::invalid_argument("an error shape that does not exist");
}

} // namespace

double half_width_to_standard_uncertainty(double half_width, ErrorShape shape) {
    return require_not_negative(half_width, "a half-width") / divisor(shape);
}

double resolution_to_standard_uncertainty(double step) {
    return require_not_negative(step, "a resolution") / (2.0 * std::numbers::sqrt3);
}

double combined_standard_uncertainty(std::initializer_list<double> contributions) {
    double length = 0.0;
    for (const double contribution : contributions)
        length = std::hypot(length, require_not_negative(contribution, "a standard uncertainty"));
    return length;
}

} // namespace coilward
