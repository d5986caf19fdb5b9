#include "coil/winding.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {
namespace {

double section_of_turn_m2(const WirePacking& wire) {
    return wire.overall_diameter_m * wire.overall_diameter_m / wire.packing;
}

} // namespace

double flange_depth_m(double core_length_m, double core_width_m, double flange_length_m,
                      double flange_width_m) {
    const double depth = std::min(flange_length_m - core_length_m, flange_width_m - core_width_m) / 2.0;
    if (!(depth > 0.0))
        throw std::invalid_argument(fmt::format("a flange {} m by {} m leaves no room around a core {} m by "
                                                "{} m; give the flange larger than the core",
                                                flange_length_m, flange_width_m, core_length_m,
                                                core_width_m));
    return depth;
}

double winding_depth_m(double turns, double height_m, const WirePacking& wire) {
    return turns * section_of_turn_m2(wire) / height_m;
}

double turns_in_depth(double depth_m, double height_m, const WirePacking& wire) {
    return depth_m * height_m / section_of_turn_m2(wire);
}

double layers_of(double turns, double height_m, double overall_diameter_m) {
    return turns * overall_diameter_m / height_m;
}

double wire_length_m(const Outline& core, double turns, double depth_m) {
    return turns * turn_length_m(outside(core, depth_m / 2.0));
}

double turns_of_length(const Outline& core, double length_m, double height_m, const WirePacking& wire) {
    // length = N·p + π·g·N² with p the core's turn and g the depth that a turn takes; the root without
    // cancellation.
    const double first = turn_length_m(core);
    const double growth = std::numbers::pi * section_of_turn_m2(wire) / height_m;
    return 2.0 * length_m / (first + std::sqrt(first * first + 4.0 * growth * length_m));
}

} // namespace coilward
