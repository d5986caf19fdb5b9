#include "coil/outline.h"

#include <numbers>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {

Outline round_outline(double radius_m) {
    if (!(radius_m > 0.0))
        throw std::invalid_argument(
            fmt::format("a core of radius {} m is none; give one above 0, in metre", radius_m));
    return {.corner_radius_m = radius_m};
}

Outline racetrack_outline(double length_m, double width_m) {
    return block_outline(length_m, width_m, width_m / 2.0);
}

Outline block_outline(double length_m, double width_m, double corner_radius_m) {
    if (!(width_m > 0.0 && length_m >= width_m))
        throw std::invalid_argument(fmt::format(
            "a core {} m long and {} m wide is none; give the longer side first, both above 0, in metre",
            length_m, width_m));
    if (!(corner_radius_m > 0.0 && corner_radius_m <= width_m / 2.0))
        throw std::invalid_argument(
            fmt::format("corners of radius {} m do not go around a core {} m wide; give one above 0 and at "
                        "most half the width, in metre",
                        corner_radius_m, width_m));
    return {.straight_length_m = length_m - 2.0 * corner_radius_m,
            .straight_width_m = width_m - 2.0 * corner_radius_m,
            .corner_radius_m = corner_radius_m};
}

Outline outside(const Outline& outline, double distance_m) {
    Outline other = outline;
    other.corner_radius_m += distance_m;
    return other;
}

double turn_length_m(const Outline& outline) {
    return 2.0 * (outline.straight_length_m + outline.straight_width_m) +
           2.0 * std::numbers::pi * outline.corner_radius_m;
}

} // namespace coilward
