#pragma once

namespace coilward {

/// The path of one turn, seen from above: a rectangle whose corners are quarter circles. Round, racetrack and
/// block-shaped cores differ only in which of the three lengths are 0. Metre.
struct Outline {
    double straight_length_m = 0.0; ///< of each of the two long sides
    double straight_width_m = 0.0;  ///< of each of the two short sides; 0 for a racetrack
    double corner_radius_m = 0.0;   ///< above 0
};

/// A circle. Throws std::invalid_argument where the radius is not above 0.
Outline round_outline(double radius_m);

/// Two straights and two half circles, as long and as wide as said. Throws std::invalid_argument where the
/// width is not above 0 or is more than the length.
Outline racetrack_outline(double length_m, double width_m);

/// Around a block, such as a bar magnet wound in place: the corners have the radius of its edges and of the
/// tape over them. Throws std::invalid_argument where a side has no room for its corners.
Outline block_outline(double length_m, double width_m, double corner_radius_m);

/// The path that runs so far outside of this one: straights stay, radii grow. Nothing is checked.
Outline outside(const Outline&, double distance_m);

/// Once around, metre.
double turn_length_m(const Outline&);

} // namespace coilward
