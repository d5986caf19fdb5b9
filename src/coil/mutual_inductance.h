#pragma once

#include "coil/outline.h"

namespace coilward {

/// The magnetic constant, henry per metre. 4π·10⁻⁷ was exact until 2019; the present value is 5.5e-10 higher.
inline constexpr double magnetic_constant_h_per_m = 1.25663706143591729539e-6;

/// Mutual inductance of two coaxial circles, by Maxwell's closed form in complete elliptic integrals. Metre,
/// henry. Throws std::invalid_argument where the circles touch or a radius is not above 0.
double mutual_inductance_of_circles_h(double one_radius_m, double other_radius_m, double axial_distance_m);

/// Mutual inductance of two turns of one winding, so far apart along its axis: their straights are the same
/// and their corners have the same centres. Metre, henry. By Neumann's formula: parallel straights in closed
/// form, a straight along an arc as an integral of its closed vector potential, arcs by quadrature. Better
/// than one part in a million from a distance of a thousandth of the corner radius. Throws
/// std::invalid_argument where the turns touch or the straights differ.
double mutual_inductance_h(const Outline&, const Outline&, double axial_distance_m);

} // namespace coilward
