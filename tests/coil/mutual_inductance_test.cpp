#include "coil/mutual_inductance.h"

#include <string>

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct Circles {
    double one_cm, other_cm, apart_cm;
    double nanohenry;
};

// Computed twice outside of this program, with µ0 = 4π·10⁻⁷ H/m: Maxwell's formula with elliptic integrals of
// 30 digits, and Neumann's integral over the arcs; the two agree to 1e-11. The row 25, 20, 10 is also a
// worked example of Rosa and Grover's formulas (248.787).
constexpr Circles circles[] = {
    {25, 20, 0, 451.7313886253},  {25, 20, 5, 361.0032010951},    {25, 20, 10, 248.7873590422},
    {25, 10, 20, 36.18333291724}, {25, 25, 1, 1036.664849282},    {25, 25, 4, 606.0676283684},
    {25, 25, 25, 123.51961577},   {16, 10, 25, 17.32875900355},   {1, 1, 1, 4.940784630798},
    {2, 1, 1, 6.987324633639},    {1, 0.5, 0.25, 4.796646996811},
};

TEST(MutualInductance, OfCirclesIsMaxwells) {
    for (const auto& [one, other, apart, expected] : circles)
        EXPECT_NEAR(mutual_inductance_of_circles_h(one / 100, other / 100, apart / 100) * 1e9 / expected, 1.0,
                    1e-10)
            << one << ", " << other << ", " << apart;
}

struct Racetracks {
    double straight_mm, one_radius_mm, other_radius_mm, apart_mm;
    double nanohenry;
};

// Computed twice outside of this program: straights in closed form with graded quadrature of the arcs, and
// Neumann's double sum by brute force; the two agree to 1e-10.
constexpr Racetracks racetracks[] = {
    {50, 5, 5, 1, 57.9695793844}, {50, 5, 5, 2, 40.3393059948},  {50, 5, 5, 5, 19.3522029842},
    {50, 5, 5, 10, 8.0749321393}, {50, 5, 5, 20, 2.4589970707},  {50, 5, 6, 1, 52.3706907029},
    {50, 4, 8, 3, 22.4361378285}, {20, 5, 10, 4, 11.9881821083},
};

TEST(MutualInductance, OfRacetracksIsNeumanns) {
    for (const auto& [straight, one, other, apart, expected] : racetracks) {
        const Outline inner{.straight_length_m = straight / 1000, .corner_radius_m = one / 1000};
        const Outline outer{.straight_length_m = straight / 1000, .corner_radius_m = other / 1000};
        EXPECT_NEAR(mutual_inductance_h(inner, outer, apart / 1000) * 1e9 / expected, 1.0, 1e-9)
            << straight << ", " << one << ", " << other << ", " << apart;
    }
}

struct Rectangles {
    double length_mm, width_mm, apart_mm;
    double nanohenry;
};

// Two equal coaxial rectangles with sharp corners, computed twice outside of this program: parallel filaments
// in closed form, and Neumann's sum by brute force.
constexpr Rectangles rectangles[] = {
    {60, 10, 2, 41.622143897},       {60, 10, 5, 19.977909240},    {1000, 1000, 1000, 101.214657104},
    {1000, 500, 100, 761.612692143}, {200, 100, 50, 67.944520090},
};

TEST(MutualInductance, OfBlocksTendsToThatOfRectangles) {
    for (const auto& [length, width, apart, expected] : rectangles) {
        const auto block = block_outline(length / 1000, width / 1000, 1e-9);
        EXPECT_NEAR(mutual_inductance_h(block, block, apart / 1000) * 1e9 / expected, 1.0, 1e-6)
            << length << ", " << width << ", " << apart;
    }
}

TEST(MutualInductance, IsTheSameRoundTheCorner) {
    // A racetrack whose straights are nearly nothing is a circle.
    const Outline nearly{.straight_length_m = 1e-9, .straight_width_m = 2e-9, .corner_radius_m = 5e-3};
    EXPECT_NEAR(mutual_inductance_h(nearly, nearly, 1e-3) / mutual_inductance_of_circles_h(5e-3, 5e-3, 1e-3),
                1.0, 1e-6);
}

std::string refusal(double one_radius, double other_radius, double apart) {
    try {
        mutual_inductance_of_circles_h(one_radius, other_radius, apart);
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "accepted";
}

TEST(MutualInductance, RefusesTurnsThatTouch) {
    EXPECT_EQ(refusal(0.01, 0.01, 0.0),
              "turns that touch, or have no radius, have no mutual inductance; give circles apart");
    EXPECT_EQ(refusal(0.0, 0.01, 0.01),
              "turns that touch, or have no radius, have no mutual inductance; give circles apart");
}

} // namespace
} // namespace coilward
