#include "coil/mutual_inductance.h"

#include "coil/gauss.h"

#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace coilward {
namespace {

constexpr double quarter = std::numbers::pi / 2.0;

/// Panels along a quarter circle, narrow at its ends, where the next piece of the other turn may be near.
constexpr std::array<double, 9> panels{0.0,           0.002 * quarter, 0.02 * quarter, 0.15 * quarter,
                                       0.5 * quarter, 0.85 * quarter,  0.98 * quarter, 0.998 * quarter,
                                       quarter};

/// 4π/µ0 · M of two parallel straights that face one another.
double facing_straights(double length, double distance) {
    if (length == 0.0) return 0.0;
    return 2.0 * (length * std::asinh(length / distance) - std::hypot(length, distance) + distance);
}

/// All four pairs of parallel straights of two turns: near ones with the same, far ones with the opposite
/// current.
double pairs_of_straights(double length, double between, double one_radius, double other_radius,
                          double axial) {
    const double near = std::hypot(one_radius - other_radius, axial);
    const double far = std::hypot(between + one_radius + other_radius, axial);
    return 2.0 * (facing_straights(length, near) - facing_straights(length, far));
}

/// 4π/µ0 · vector potential of a straight about the origin, at a place along it and a distance from its line.
double potential_of_straight(double length, double along, double distance) {
    return std::asinh((along + length / 2.0) / distance) - std::asinh((along - length / 2.0) / distance);
}

/// The four straights of one turn along the four corners of the other.
double straights_along_corners(const Outline& straight, const Outline& arc, double axial) {
    const double r = arc.corner_radius_m;
    const double half_length = straight.straight_length_m / 2.0;
    const double half_width = straight.straight_width_m / 2.0;
    return 4.0 * integral_over_panels(panels, [&](double angle) {
               const double x = half_length + r * std::cos(angle);
               const double y = half_width + r * std::sin(angle);
               double sum = 0.0;
               // Counter-clockwise: the upper side runs to −x, the lower to +x; the right to +y, the left to
               // −y.
               for (const double side : {1.0, -1.0}) {
                   const double y_side = side * (half_width + straight.corner_radius_m);
                   const double x_side = side * (half_length + straight.corner_radius_m);
                   if (half_length > 0.0)
                       sum += side * std::sin(angle) *
                              potential_of_straight(2.0 * half_length, x, std::hypot(y - y_side, axial));
                   if (half_width > 0.0)
                       sum += side * std::cos(angle) *
                              potential_of_straight(2.0 * half_width, y, std::hypot(x - x_side, axial));
               }
               return r * sum;
           });
}

/// Two arcs about one centre, u apart in angle: the density of u over both arcs is `weight`. The substitution
/// u = u0·sinh(t) takes the peak at u = 0 away.
template <typename Weight>
double about_one_centre(double one_radius, double other_radius, double axial, double from, double to,
                        const Weight& weight) {
    const double gap = std::hypot(one_radius - other_radius, axial);
    const double product = one_radius * other_radius;
    const double u0 = gap / std::sqrt(product);
    const double first = std::asinh(from / u0);
    const double last = std::asinh(to / u0);
    const double third = (last - first) / 3.0;
    return integral_over_panels(std::array{first, first + third, last - third, last}, [&](double t) {
        const double u = u0 * std::sinh(t);
        const double s = std::sin(u / 2.0);
        return weight(u) * product * std::cos(u) / std::sqrt(gap * gap + 4.0 * product * s * s) * u0 *
               std::cosh(t);
    });
}

/// Two quarter circles over one another.
double same_corner(double one_radius, double other_radius, double axial) {
    return about_one_centre(one_radius, other_radius, axial, 0.0, quarter,
                            [](double u) { return 2.0 * (quarter - u); });
}

/// The two quarter circles of a half circle, one of each turn.
double halves_of_one_end(double one_radius, double other_radius, double axial) {
    return about_one_centre(one_radius, other_radius, axial, 0.0, quarter, [](double u) { return u; }) +
           about_one_centre(one_radius, other_radius, axial, quarter, 2.0 * quarter,
                            [](double u) { return 2.0 * quarter - u; });
}

/// ∫ over a quarter circle: in narrow panels where the other piece may be near, else at once.
template <typename Function>
double along_quarter(bool near, const Function& f) {
    return near ? integral_over_panels(panels, f) : integral(0.0, quarter, f);
}

/// The first corner of one turn with another corner of the other, whose directions are mirrored by the signs.
double other_corner(const Outline& one, const Outline& other, double x_sign, double y_sign, double axial) {
    const double across_x = x_sign < 0.0 ? one.straight_length_m : 0.0;
    const double across_y = y_sign < 0.0 ? one.straight_width_m : 0.0;
    if (across_x == 0.0 && across_y == 0.0 && x_sign != y_sign)
        return halves_of_one_end(one.corner_radius_m, other.corner_radius_m, axial);
    const bool near = std::hypot(across_x, across_y) < one.corner_radius_m + other.corner_radius_m;
    // A corner mirrored once is run through backwards.
    const double sense = x_sign * y_sign;
    return along_quarter(near, [&](double a) {
        const double x = across_x + one.corner_radius_m * std::cos(a);
        const double y = across_y + one.corner_radius_m * std::sin(a);
        return along_quarter(near, [&](double b) {
            const double dx = x - x_sign * other.corner_radius_m * std::cos(b);
            const double dy = y - y_sign * other.corner_radius_m * std::sin(b);
            const double along =
                sense * (x_sign * std::sin(a) * std::sin(b) + y_sign * std::cos(a) * std::cos(b));
            return one.corner_radius_m * other.corner_radius_m * along /
                   std::sqrt(dx * dx + dy * dy + axial * axial);
        });
    });
}

double corners_with_corners(const Outline& one, const Outline& other, double axial) {
    return 4.0 * (same_corner(one.corner_radius_m, other.corner_radius_m, axial) +
                  other_corner(one, other, -1.0, 1.0, axial) + other_corner(one, other, 1.0, -1.0, axial) +
                  other_corner(one, other, -1.0, -1.0, axial));
}

} // namespace

double mutual_inductance_of_circles_h(double one_radius_m, double other_radius_m, double axial_distance_m) {
    const double product = one_radius_m * other_radius_m;
    const double widest = std::hypot(one_radius_m + other_radius_m, axial_distance_m);
    const double gap = std::hypot(one_radius_m - other_radius_m, axial_distance_m);
    if (!(one_radius_m > 0.0 && other_radius_m > 0.0 && gap > 0.0))
        throw std::invalid_argument(
            "turns that touch, or have no radius, have no mutual inductance; give circles apart");
    const double k = 2.0 * std::sqrt(product) / widest;
    return magnetic_constant_h_per_m * std::sqrt(product) *
           ((2.0 / k - k) * std::comp_ellint_1(k) - 2.0 / k * std::comp_ellint_2(k));
}

double mutual_inductance_h(const Outline& one, const Outline& other, double axial_distance_m) {
    if (one.straight_length_m != other.straight_length_m || one.straight_width_m != other.straight_width_m)
        throw std::invalid_argument(
            "two turns of one winding have the same straights; give outlines of one core");
    const double r1 = one.corner_radius_m;
    const double r2 = other.corner_radius_m;
    const double length = one.straight_length_m;
    const double width = one.straight_width_m;
    if (length == 0.0 && width == 0.0) return mutual_inductance_of_circles_h(r1, r2, axial_distance_m);
    if (!(r1 > 0.0 && r2 > 0.0 && std::hypot(r1 - r2, axial_distance_m) > 0.0))
        throw std::invalid_argument(
            "turns that touch, or have no radius, have no mutual inductance; give turns apart");
    const double sum = pairs_of_straights(length, width, r1, r2, axial_distance_m) +
                       pairs_of_straights(width, length, r1, r2, axial_distance_m) +
                       straights_along_corners(one, other, axial_distance_m) +
                       straights_along_corners(other, one, axial_distance_m) +
                       corners_with_corners(one, other, axial_distance_m);
    return magnetic_constant_h_per_m / (4.0 * std::numbers::pi) * sum;
}

} // namespace coilward
