#include "coil/winding.h"
#include "wire/copper.h"
#include "wire/gauge.h"

#include <string>

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct LayeredCoil {
    double straight_mm, inner_radius_mm, pitch_mm;
    int layers, turns_per_layer;
    double wire_m;
    double exact_42_ohm;   // 42 AWG, exact diameter
    double nominal_42_ohm; // 42 AWG, 2.5 mil
    double metric_63_ohm;  // 0.063 mm, 58.5 m/(Ω mm²)
};

// Computed outside of this program layer by layer: turn length = 2·straight + 2π (inner radius + (i −
// ½)·pitch).
constexpr LayeredCoil layered_coils[] = {
    {52, 3, 0.07, 50, 140, 936.915911, 5126.462, 5100.765, 5137.759},
    {50, 4, 0.065, 60, 100, 824.309715, 4510.322, 4487.713, 4520.262},
};

TEST(Winding, OfALayeredRacetrackHasItsWireAndResistance) {
    for (const auto& row : layered_coils) {
        const Outline core{.straight_length_m = row.straight_mm / 1000,
                           .corner_radius_m = row.inner_radius_mm / 1000};
        const double turns = row.layers * row.turns_per_layer;
        const double length = wire_length_m(core, turns, row.layers * row.pitch_mm / 1000);
        EXPECT_NEAR(length / row.wire_m, 1.0, 1e-8);
        EXPECT_NEAR(length * ohm_per_metre_20(awg_diameter_m(42, AwgDiameter::exact)) / row.exact_42_ohm, 1.0,
                    1e-6);
        EXPECT_NEAR(length * ohm_per_metre_20(awg_diameter_m(42, AwgDiameter::nominal)) / row.nominal_42_ohm,
                    1.0, 1e-6);
        EXPECT_NEAR(length * ohm_per_metre_20(63e-6, winding_wire_conductivity_s_per_m) / row.metric_63_ohm,
                    1.0, 1e-6);
    }
}

TEST(Winding, TurnBesideTurnFillsLayersOfTheWiresOwnDiameter) {
    // 140 turns of 0.07 mm side by side are 9.8 mm, and 50 layers of them 3.5 mm.
    const WirePacking square{.overall_diameter_m = 70e-6};
    EXPECT_NEAR(winding_depth_m(7000, 9.8e-3, square), 3.5e-3, 1e-12);
    EXPECT_NEAR(turns_in_depth(3.5e-3, 9.8e-3, square), 7000, 1e-6);
    EXPECT_NEAR(layers_of(7000, 9.8e-3, 70e-6), 50, 1e-9);
    // Looser: half of the squares hold a turn.
    EXPECT_NEAR(winding_depth_m(7000, 9.8e-3, {70e-6, 0.5}), 7.0e-3, 1e-12);
}

TEST(Winding, TurnsOfALengthAreThoseWhoseWireItIs) {
    for (const auto& row : layered_coils) {
        const Outline core{.straight_length_m = row.straight_mm / 1000,
                           .corner_radius_m = row.inner_radius_mm / 1000};
        const WirePacking square{.overall_diameter_m = row.pitch_mm / 1000};
        const double height = row.turns_per_layer * row.pitch_mm / 1000;
        EXPECT_NEAR(turns_of_length(core, row.wire_m, height, square), row.layers * row.turns_per_layer,
                    1e-4);
    }
}

TEST(Outline, OfEveryShapeHasItsLength) {
    EXPECT_NEAR(turn_length_m(round_outline(0.01)), 0.0628318530718, 1e-12);
    EXPECT_NEAR(turn_length_m(racetrack_outline(0.056, 0.0048)), 2 * 0.0512 + 0.0150796447372, 1e-12);
    EXPECT_NEAR(turn_length_m(block_outline(0.060, 0.010, 0.001)), 2 * (0.058 + 0.008) + 0.00628318530718,
                1e-12);
    EXPECT_NEAR(turn_length_m(outside(racetrack_outline(0.056, 0.0048), 0.001)),
                0.1174796447372 + 0.00628318530718, 1e-12);
}

template <typename Action>
std::string refusal(const Action& action) {
    try {
        action();
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "accepted";
}

TEST(Outline, RefusesWhatIsNoCore) {
    EXPECT_EQ(
        refusal([] { racetrack_outline(0.004, 0.05); }),
        "a core 0.004 m long and 0.05 m wide is none; give the longer side first, both above 0, in metre");
    EXPECT_EQ(refusal([] { block_outline(0.06, 0.01, 0.006); }),
              "corners of radius 0.006 m do not go around a core 0.01 m wide; give one above 0 and at most "
              "half the "
              "width, in metre");
    EXPECT_EQ(refusal([] { round_outline(0.0); }),
              "a core of radius 0 m is none; give one above 0, in metre");
    EXPECT_EQ(refusal([] { flange_depth_m(0.056, 0.0048, 0.070, 0.0048); }),
              "a flange 0.07 m by 0.0048 m leaves no room around a core 0.056 m by 0.0048 m; give the flange "
              "larger "
              "than the core");
}

} // namespace
} // namespace coilward
