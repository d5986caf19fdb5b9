#include "wire/circle.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {

double circle_area_m2(double diameter_m) {
    if (!(diameter_m > 0.0) || !std::isfinite(diameter_m))
        throw std::invalid_argument(
            fmt::format("a wire diameter of {} m is none; give one above 0, in metre", diameter_m));
    return std::numbers::pi / 4.0 * diameter_m * diameter_m;
}

} // namespace coilward
