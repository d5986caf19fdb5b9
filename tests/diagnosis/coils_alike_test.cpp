#include "diagnosis/diagnosis.h"
#include "reading/examination_json.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

namespace coilward {
namespace {

const Rules& rules() {
    static const Rules loaded = load_rules(COILWARD_SOURCE_DIR "/rules");
    return loaded;
}

Diagnosis diagnosis_with(const std::string& readings, const std::string& alike) {
    return diagnose(rules(), examination_from_json(R"({"coil_model": "six-rod-42", "readings": [)" +
                                                   readings + R"(], "alike": [)" + alike + "]}"));
}

std::string resistance_at_20(double ohm) {
    return R"({"quantity": "temperature", "value": 20, "standard_uncertainty": 0.01},
              {"quantity": "dc_resistance", "value": )" +
           std::to_string(ohm) + R"(, "standard_uncertainty": 1})";
}

std::string kin(const std::string& as, const std::string& readings, const std::string& more = "") {
    return R"({"as": ")" + as + R"(", "healthy": true, )" + more + R"("readings": [)" + readings + "]}";
}

/// ln of the middle and of the width of what the resistance is expected to be.
struct ExpectedResistance {
    double log_middle;
    double log_deviation;
};

ExpectedResistance expected_resistance(const Diagnosis& diagnosis) {
    const auto comparison = std::ranges::find(diagnosis.comparisons, Quantity::dc_resistance,
                                              [](const Comparison& c) { return c.reading.quantity; });
    const auto [low, high] = comparison->expected;
    return {0.5 * std::log(low * high), std::log(high / low) / (2.0 * 1.959964)};
}

/// Two normal variables of variance s² with covariance s² − w²: the best prediction of one from the other is
/// 1 − w²/s² of its offset, with the variance s² − (s² − w²)²/s² (any textbook on regression). 95 % of the
/// model's resistances are within its range; a twin's own part is 0.5 % of turns and 1.2 % of wire.
TEST(CoilsAlike, ATwinMovesWhatIsExpectedByWhatIsShared) {
    const auto [low, high] = rules().coil_model("six-rod-42")->dc_resistance_ohm;
    const double middle = 0.5 * std::log(low * high);
    const double s = std::log(high / low) / (2.0 * 1.959964);
    const double w = std::hypot(0.005, 0.012);
    const double gain = 1.0 - w * w / (s * s);
    const double read = 1.04 * std::exp(middle);
    const auto [found, deviation] = expected_resistance(
        diagnosis_with(resistance_at_20(std::exp(middle)), kin("twin", resistance_at_20(read))));
    EXPECT_NEAR(found - middle, gain * std::log(1.04), 0.0006);
    EXPECT_NEAR(deviation, s * std::sqrt(1.0 - gain * gain), 0.0006);
}

/// Resistances within sets of two and three coils, from published readings (../shared/reference/pickups:
/// S04, S18, S23, S17), kΩ. Their pooled standard deviation is what two coils of a set do not share.
TEST(CoilsAlike, ASetScattersAsPublishedSetsDo) {
    const std::vector<std::vector<double>> sets{
        {7.406, 7.073, 6.894}, {5.9, 5.9, 6.1}, {7.87, 7.97}, {6.3, 5.7}};
    double squares = 0.0;
    double freedom = 0.0;
    for (const std::vector<double>& set : sets) {
        double mean = 0.0;
        for (const double r : set)
            mean += std::log(r) / static_cast<double>(set.size());
        for (const double r : set)
            squares += (std::log(r) - mean) * (std::log(r) - mean);
        freedom += static_cast<double>(set.size()) - 1.0;
    }
    const double published = std::sqrt(squares / freedom);
    EXPECT_NEAR(published, 0.0376, 0.0002);
    EXPECT_NEAR(std::hypot(0.010, 0.036), published, 0.001); // what coils_alike.cpp has
}

TEST(CoilsAlike, TheTwinIsTheNearerAndTheModelTheWidest) {
    const std::string coil = resistance_at_20(6134.0);
    const double model = expected_resistance(diagnosis_with(coil, "")).log_deviation;
    const double set = expected_resistance(diagnosis_with(coil, kin("set", coil))).log_deviation;
    const double twin = expected_resistance(diagnosis_with(coil, kin("twin", coil))).log_deviation;
    const double both =
        expected_resistance(diagnosis_with(coil, kin("twin", coil) + "," + kin("set", coil))).log_deviation;
    EXPECT_LT(twin, 0.6 * model);
    EXPECT_LT(set, model);
    EXPECT_LE(both, twin);
}

TEST(CoilsAlike, ACoilOfAnotherModelSharesWireAndTurnsOnly) {
    const std::string of_another = R"("coil_model": "screw-coil-42", )";
    const std::string inductance = R"({"quantity": "inductance", "frequency": 1000, "value": 2.0})";
    const std::string coil =
        resistance_at_20(6134.0) + R"(, {"quantity": "inductance", "frequency": 1000, "value": 2.4})";
    const auto log_width = [&](const std::string& alike) {
        const auto diagnosis = diagnosis_with(coil, alike);
        const auto comparison = std::ranges::find(diagnosis.comparisons, Quantity::inductance,
                                                  [](const Comparison& c) { return c.reading.quantity; });
        return std::log(comparison->expected.high / comparison->expected.low);
    };
    // Of the other's inductance only its turns tell anything.
    EXPECT_LT(log_width(kin("twin", inductance)), 0.8 * log_width(kin("twin", inductance, of_another)));
    EXPECT_LE(log_width(kin("twin", inductance, of_another)), log_width(""));
    const auto hot = diagnosis_with(coil, kin("twin", resistance_at_20(4300.0), of_another));
    EXPECT_GT(expected_resistance(hot).log_middle, expected_resistance(diagnosis_with(coil, "")).log_middle);
}

TEST(CoilsAlike, OneThatIsNotHealthySaysNothing) {
    const std::string coil = resistance_at_20(6134.0);
    const auto diagnosis = diagnosis_with(coil, R"({"as": "twin", "healthy": false, "readings": [)" +
                                                    resistance_at_20(9000.0) + "]}");
    EXPECT_DOUBLE_EQ(expected_resistance(diagnosis).log_middle,
                     expected_resistance(diagnosis_with(coil, "")).log_middle);
    EXPECT_NE(std::ranges::find(diagnosis.notes, "a twin coil that is not healthy was not used"),
              diagnosis.notes.end());
}

TEST(CoilsAlike, AnUnknownModelIsSaid) {
    try {
        diagnosis_with(resistance_at_20(6134.0),
                       kin("set", resistance_at_20(6134.0), R"("coil_model": "nobody", )"));
        FAIL() << "accepted";
    } catch (const CannotDiagnose& error) {
        EXPECT_STREQ(error.what(),
                     "alike: coil_model: \"nobody\" is in no file under rules/coils; \"coilward "
                     "models\" lists those that are");
    }
}

} // namespace
} // namespace coilward
