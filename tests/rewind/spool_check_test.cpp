#include "rewind/spool_check.h"

#include <cmath>
#include <stdexcept>

#include <gtest/gtest.h>

namespace coilward {
namespace {

// IEC 60028: 0.00393 per kelvin at 20 °C, 58 m/(ohm mm²), 8.89 g/cm³; NEMA MW 1000: 44 AWG is 2.0 mil, 43
// AWG 2.2 mil.
constexpr double alpha = 0.00393;

double ohm_per_metre_of_mil(double mil) {
    const double diameter_mm = mil * 0.0254;
    return 1.0 / (58.0 * 3.14159265358979 / 4.0 * diameter_mm * diameter_mm);
}

/// Ten metres of a wire, read once at that temperature.
WirePiece ten_metres(double mil, double temperature_c) {
    return {.readings = {{10.0 * ohm_per_metre_of_mil(mil) * (1.0 + alpha * (temperature_c - 20.0)),
                          temperature_c}},
            .resistance_uncertainty_ohm = 0.05,
            .temperature_uncertainty_c = 0.5,
            .length_m = Uncertain{10.0, 0.01}};
}

TEST(SpoolCheck, OfA44AwgSaysSoAtAnyTemperature) {
    for (const double temperature_c : {15.0, 20.0, 31.0}) {
        const SpoolCheck check = check_spool(ten_metres(2.0, temperature_c), 44);
        EXPECT_NEAR(check.ohm_per_metre_20.value, ohm_per_metre_of_mil(2.0), 1e-9) << temperature_c;
        EXPECT_EQ(check.conformity.decision, Decision::pass);
        ASSERT_EQ(check.candidates.size(), 5U);
        EXPECT_EQ(check.candidates[2].awg, 44);
        EXPECT_NEAR(check.candidates[2].probability, 1.0, 1e-6);
        EXPECT_NEAR(check.candidates[2].nominal_ratio, 1.0, 1e-6);
    }
}

TEST(SpoolCheck, OfA43AwgUnderThe44LabelSaysWhichItIs) {
    const SpoolCheck check = check_spool(ten_metres(2.2, 22.0), 44);
    EXPECT_EQ(check.conformity.decision, Decision::fail);
    EXPECT_NEAR(check.candidates[1].probability, 1.0, 1e-6);
    EXPECT_EQ(check.candidates[1].awg, 43);
}

TEST(SpoolCheck, AtALimitIsUndecided) {
    // The makers' thinnest 44 AWG: 2.0 − 0.1 mil.
    const SpoolCheck check = check_spool(ten_metres(1.9, 20.0), 44);
    EXPECT_EQ(check.conformity.decision, Decision::measure_better);
    EXPECT_NEAR(check.conformity.probability_within, 0.5, 1e-6);
    EXPECT_NEAR(check.none_of_them, 0.5, 1e-6);
}

// ½ % of a kelvin's share, 0.05 ohm of 85, 1 cm of 10 m: in quadrature, by hand.
TEST(SpoolCheck, HasTheUncertaintyOfItsInputs) {
    const WirePiece piece = ten_metres(2.0, 20.0);
    const double resistance = piece.readings.front().resistance_ohm;
    const double relative = std::hypot(0.05 / resistance, alpha * 0.5, 0.01 / 10.0);
    const Uncertain result = ohm_per_metre_of(piece);
    EXPECT_NEAR(result.standard_uncertainty / result.value, relative, 1e-6);
}

TEST(SpoolCheck, KnowsThatResistanceAndTemperatureVaryTogether) {
    WirePiece piece = ten_metres(2.0, 20.0);
    piece.readings.clear();
    for (const double temperature_c : {20.0, 21.0, 22.0, 23.0})
        piece.readings.push_back(ten_metres(2.0, temperature_c).readings.front());
    double correlation = 0.0;
    const Uncertain result = ohm_per_metre_of(piece, &correlation);
    EXPECT_NEAR(result.value, ohm_per_metre_of_mil(2.0), 1e-9);
    // What scatters is one and the same warming: nothing is added to what meter, thermometer and rule leave
    // open.
    const double resistance = 10.0 * ohm_per_metre_of_mil(2.0) * (1.0 + alpha * 1.5);
    const double relative = std::hypot(0.05 / resistance, alpha / (1.0 + alpha * 1.5) * 0.5, 0.01 / 10.0);
    EXPECT_NEAR(result.standard_uncertainty / result.value, relative, 1e-6);
    EXPECT_GT(correlation, 0.5);
}

TEST(SpoolCheck, TakesTheMassInPlaceOfTheLength) {
    WirePiece piece = ten_metres(2.0, 20.0);
    const double area_m2 = 3.14159265358979 / 4.0 * std::pow(2.0 * 25.4e-6, 2);
    piece.length_m.reset();
    piece.mass_kg = Uncertain{10.0 * area_m2 * 8890.0 / 0.92, 0.0};
    const Uncertain result = ohm_per_metre_of(piece);
    EXPECT_NEAR(result.value, ohm_per_metre_of_mil(2.0), 1e-6);
    // Half of what the enamel's share of 0.08 ± 0.03 leaves open of the copper, half of the rest.
    const double resistance = piece.readings.front().resistance_ohm;
    EXPECT_NEAR(result.standard_uncertainty / result.value,
                0.5 * std::hypot(0.03 / 0.92, 0.05 / resistance, alpha * 0.5), 1e-5);
}

TEST(SpoolCheck, RefusesWhatTellsNothing) {
    EXPECT_THROW(check_spool(ten_metres(2.0, 20.0), 12), std::invalid_argument);
    WirePiece piece = ten_metres(2.0, 20.0);
    piece.length_m.reset();
    EXPECT_THROW(ohm_per_metre_of(piece), std::invalid_argument);
    piece.length_m = Uncertain{0.0, 0.0};
    EXPECT_THROW(ohm_per_metre_of(piece), std::invalid_argument);
    EXPECT_THROW(ohm_per_metre_of({.length_m = Uncertain{10.0, 0.0}}), std::invalid_argument);
}

} // namespace
} // namespace coilward
