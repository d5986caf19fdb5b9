#pragma once

#include "coil/outline.h"

namespace coilward {

/// Room for wire: a core, or a magnet that is wound in place, between two flanges. Metre.
struct Bobbin {
    Outline core;          ///< the surface on which the first layer lies, its tape included
    double height_m = 0.0; ///< between the flanges
    double depth_m = 0.0;  ///< from the core to the edge of the flanges, where they stand out least
};

/// Depth of the room: how far the flanges stand out over the core, on the side where that is less. Throws
/// std::invalid_argument where a flange does not reach the core.
double flange_depth_m(double core_length_m, double core_width_m, double flange_length_m,
                      double flange_width_m);

/// What a wire takes of a section: squares as wide as the wire over its enamel, of which each holds `packing`
/// turns. 1 is every turn beside and above another; 1.155, 2 / √3, is the densest that round wire can lie;
/// by hand it lies looser than 1.
struct WirePacking {
    double overall_diameter_m = 0.0; ///< over the enamel; above 0
    double packing = 1.0;            ///< above 0
};

/// 2 / √3: each turn in the groove between two of the layer below.
inline constexpr double densest_packing = 1.1547005383792515;

/// Depth that so many turns take, metre. Neither this nor what follows checks its arguments: lengths and
/// packing must be above 0.
double winding_depth_m(double turns, double height_m, const WirePacking&);

/// How many turns fit into such a depth; a fraction too.
double turns_in_depth(double depth_m, double height_m, const WirePacking&);

/// Layers, were they wound turn beside turn: turns times diameter over the height.
double layers_of(double turns, double height_m, double overall_diameter_m);

/// Length of the wire, metre: every turn as long as the one in the middle of the depth, which is exact for
/// turns spread evenly over it, and where the corners keep round.
double wire_length_m(const Outline& core, double turns, double depth_m);

/// Turns whose wire is so long, with depth growing as they are wound. The inverse of the above: length = N p
/// + π g N², p the first turn's length and g the depth that one turn takes.
double turns_of_length(const Outline& core, double length_m, double height_m, const WirePacking&);

} // namespace coilward
