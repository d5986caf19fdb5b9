#include "coil/air_core.h"
#include "coil/mutual_inductance.h"

#include <cmath>
#include <numbers>
#include <string>

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct NagaokaRow {
    double length_over_diameter;
    double published; // 0 where a source has none, or one that the closed form shows to be a misprint
    double exact;
};

// Published: F. W. Grover, Inductance Calculations, table 36, as reproduced in public source code (ratios to
// 1), and H. Nagaoka's list of 1909 for diameter over length in steps of 0.5, likewise. Exact: the closed
// form with 30 digits, computed outside of this program.
const NagaokaRow nagaoka_rows[] = {{0.02, 0.061098, 0.0610976062139},
                                   {0.05, 0.123615, 0.123614809705},
                                   {0.10, 0.203324, 0.203323517522},
                                   {0.15, 0.266744, 0.26674351011},
                                   {0.20, 0.319825, 0.319825467782},
                                   {0.25, 0.365432, 0.3654318974},
                                   {0.30, 0.405269, 0.405268803407},
                                   {0.40, 0.471865, 0.471864779427},
                                   {0.50, 0.52551, 0.525510024252},
                                   {0.60, 0.569691, 0.569690889673},
                                   {0.70, 0.606689, 0.606689597911},
                                   {0.75, 0.623011, 0.623010901858},
                                   {0.80, 0.638094, 0.638093622681},
                                   {0.90, 0.665054, 0.665052427836},
                                   {1.00, 0.688423, 0.68842260732},
                                   {2.0, 0.818136, 0.818135751935},
                                   {1 / 1.5, 0.595045, 0.595045884714},
                                   {1 / 3.0, 0.429199, 0.429198617034},
                                   {1 / 3.5, 0.394401, 0.39440169801},
                                   {1 / 4.5, 0.340898, 0.34089902018},
                                   {1 / 5.5, 0.301502, 0.301503980357},
                                   {1 / 6.0, 0, 0.285410092733},
                                   {1 / 6.5, 0.271144, 0.271146447971},
                                   {1 / 7.0, 0.258407, 0.258406288375},
                                   {1 / 7.5, 0, 0.246948860102},
                                   {0.125, 0.236581, 0.236582435808},
                                   {1 / 8.5, 0, 0.227152337994},
                                   {1 / 9.0, 0, 0.218532323597},
                                   {1 / 9.5, 0.210617, 0.210618276743},
                                   {10.0, 0, 0.958807124204},
                                   {5.0, 0, 0.920092670828},
                                   {4.0, 0, 0.901649329977},
                                   {3.3333333, 0, 0.883802908729},
                                   {2.5, 0, 0.849853434903},
                                   {1.25, 0, 0.735079063465}};

TEST(Nagaoka, IsTheClosedForm) {
    for (const auto& row : nagaoka_rows)
        EXPECT_NEAR(nagaoka_coefficient(row.length_over_diameter), row.exact, 5e-8)
            << row.length_over_diameter;
}

TEST(Nagaoka, AgreesWithThePublishedTables) {
    for (const auto& row : nagaoka_rows) {
        if (row.published > 0) {
            EXPECT_NEAR(nagaoka_coefficient(row.length_over_diameter), row.published, 1e-5)
                << row.length_over_diameter;
        }
    }
}

/// T. R. Lyle, Phil. Trans. A 213 (1914), p. 429, as quoted in the tests of a public library: current sheets
/// of radius 1 m.
TEST(CurrentSheet, AgreesWithLyle) {
    EXPECT_NEAR(current_sheet_henry_per_turn2(2, 2) / magnetic_constant_h_per_m, 1.08137, 5e-6);
    EXPECT_NEAR(current_sheet_henry_per_turn2(2, 1), 20.7463e-7, 5e-12);
    EXPECT_NEAR(current_sheet_henry_per_turn2(2, 0.5), 28.85335e-7, 5e-13);
}

struct LyleRow {
    double side_ratio;
    double distance; // over the sum of the sides
};

// Lyle 1914, table 1, as quoted there; recomputed within 1e-6.
constexpr LyleRow lyle_rows[] = {{0.025, 0.223328}, {0.05, 0.223455}, {0.1, 0.223599}, {0.2, 0.223686},
                                 {0.3, 0.223675},   {0.4, 0.223639},  {0.5, 0.223601}, {0.6, 0.22357},
                                 {0.7, 0.223548},   {0.8, 0.223534},  {0.9, 0.223527}, {1.0, 0.223525}};

TEST(MeanDistance, OfARectangleIsLyles) {
    for (const auto& [ratio, distance] : lyle_rows) {
        EXPECT_NEAR(mean_distance_of_rectangle_m(ratio, 1) / (1 + ratio), distance, 1e-6) << ratio;
        EXPECT_NEAR(mean_distance_of_rectangle_m(1, ratio) / (1 + ratio), distance, 1e-6) << ratio;
    }
}

struct ThickCoil {
    double inner_mm, outer_mm, height_mm;
    double nanohenry; // per turn²
};

// Computed outside of this program by two independent routes, an integral of Bessel and Struve functions and
// the average of Maxwell's mutual inductances over the section; they agree to 1e-8, for the flat coil to
// 3e-7.
constexpr ThickCoil thick_coils[] = {
    {10, 20, 10, 25.49067316},      {5, 10, 10, 9.58142769},  {12.7, 38.1, 25.4, 32.16918315},
    {42.5, 57.5, 15, 132.20516623}, {20, 22, 2, 85.44642855}, {5, 20, 5, 18.90769875},
    {10, 12, 50, 7.45096533},       {5, 6, 2, 15.20053358},
};

TEST(AirCore, OfThickRoundCoilsIsThatOfTwoOtherRoutes) {
    for (const auto& [inner, outer, height, expected] : thick_coils) {
        const WindingSection section{round_outline(inner / 1000), (outer - inner) / 1000, height / 1000};
        EXPECT_NEAR(air_core_henry_per_turn2(section) * 1e9 / expected, 1.0, 1e-6)
            << inner << " to " << outer;
    }
}

/// L / (N² c) with c the side of the square section, mean radius 1.5 c: 0.025491 µH per cm is printed in
/// public engineering code quoting a page on Brooks coils; the integral gives 0.0254906732.
TEST(AirCore, OfABrooksCoilIsItsConstant) {
    constexpr double c = 0.01;
    const double per_turn2 = air_core_henry_per_turn2({round_outline(c), c, c});
    EXPECT_NEAR(per_turn2 * 1e6, 0.025491, 5e-7);
    EXPECT_NEAR(per_turn2 * 1e6 / 0.0254906732, 1.0, 1e-6);
}

/// Turn by turn: the mean of all mutual inductances, with every turn's own, of racetrack turns laid in a
/// grid. The own one is that of two filaments at the mean distance of the grid's square from itself, so that
/// the sum is the same integral by the rectangle rule and may differ by its discretisation only.
double turn_by_turn(const WindingSection& section, int layers, int rows) {
    const double depth = section.depth_m / layers;
    const double height = section.height_m / rows;
    const double own = mean_distance_of_rectangle_m(depth, height);
    double sum = 0.0;
    for (int i = 0; i < layers; ++i)
        for (int j = 0; j < layers; ++j)
            for (int apart = 0; apart < rows; ++apart) {
                const auto one = outside(section.innermost, (i + 0.5) * depth);
                const auto other = outside(section.innermost, (j + 0.5) * depth);
                const double z = i == j && apart == 0 ? own : apart * height;
                sum += (apart == 0 ? 1.0 : 2.0) * (rows - apart) * mutual_inductance_h(one, other, z);
            }
    return sum / std::pow(layers * rows, 2);
}

TEST(AirCore, OfThickRacetrackAndBlockCoilsIsTheSumOfTheirTurns) {
    const WindingSection sections[] = {
        {racetrack_outline(0.056, 0.0048), 0.0035, 0.0105},
        {racetrack_outline(0.060, 0.006), 0.005, 0.005},
        {racetrack_outline(0.020, 0.010), 0.006, 0.012},
        {block_outline(0.060, 0.010, 0.001), 0.004, 0.004},
    };
    for (const auto& section : sections)
        EXPECT_NEAR(air_core_henry_per_turn2(section) / turn_by_turn(section, 20, 24), 1.0, 5e-4);
}

TEST(AirCore, OfARacetrackWithoutStraightsIsThatOfACircle) {
    const Outline nearly{.straight_length_m = 1e-7, .corner_radius_m = 0.005};
    EXPECT_NEAR(air_core_henry_per_turn2({nearly, 0.005, 0.010}) /
                    air_core_henry_per_turn2({round_outline(0.005), 0.005, 0.010}),
                1.0, 2e-5);
}

std::string refusal(double depth_m) {
    try {
        air_core_henry_per_turn2({round_outline(0.01), depth_m, 0.01});
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "accepted";
}

TEST(AirCore, RefusesAWindingWithoutDepth) {
    EXPECT_EQ(refusal(0.0), "a winding 0 m deep and 0.01 m high is none; give both above 0, in metre");
}

} // namespace
} // namespace coilward
