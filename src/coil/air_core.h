#pragma once

#include "coil/outline.h"

namespace coilward {

/// The cross-section of a winding: turns spread evenly over it. Metre.
struct WindingSection {
    Outline innermost;     ///< the surface of the core on which the wire lies
    double depth_m = 0.0;  ///< from there outwards
    double height_m = 0.0; ///< along the axis
};

/// Nagaoka's coefficient of a cylindrical current sheet, from its length over its diameter: 1 for a very long
/// one. In complete elliptic integrals (H. Nagaoka, 1909). Throws std::invalid_argument where the ratio is
/// not above 0.
double nagaoka_coefficient(double length_over_diameter);

/// Henry per turn² of a cylindrical current sheet: µ0 π a² / l times Nagaoka's coefficient, a the radius and
/// l the length. Throws std::invalid_argument where their ratio is not above 0.
double current_sheet_henry_per_turn2(double diameter_m, double length_m);

/// Geometric mean distance of a rectangle's area from itself (J. C. Maxwell's formula; T. R. Lyle, 1914).
/// Both sides must be above 0, which is not checked.
double mean_distance_of_rectangle_m(double depth_m, double height_m);

/// Henry per turn² of a winding without a core, current spread evenly over its section: the mean of
/// Neumann's formula over all pairs of filaments, the logarithm at their coincidence taken in closed form by
/// the mean distance. Throws std::invalid_argument where depth or height is not above 0.
double air_core_henry_per_turn2(const WindingSection&);

} // namespace coilward
