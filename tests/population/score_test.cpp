#include "score.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace population {
namespace {

using testing::DoubleNear;

Outcome said(const std::string& truth, const std::string& named, double probability) {
    Outcome outcome;
    outcome.fault = truth;
    outcome.answered = true;
    outcome.named = named;
    outcome.probability = probability;
    outcome.decided = probability >= 0.95;
    outcome.probabilities = {{named, probability}};
    return outcome;
}

/// Four stated at 0.9, three of them right; two at 0.55, one right: by hand (4·0.15 + 2·0.05) / 6.
std::vector<Outcome> six() {
    return {said("open", "open", 0.9),    said("open", "open", 0.9),        said("healthy", "healthy", 0.9),
            said("healthy", "open", 0.9), said("healthy", "healthy", 0.55), said("open", "healthy", 0.55)};
}

TEST(Score, CalibrationErrorByHand) {
    EXPECT_THAT(expected_calibration_error(reliability(six())), DoubleNear(0.7 / 6.0, 1e-12));
    EXPECT_EQ(accuracy(six()).hits, 4);
}

TEST(Score, CertaintyFallsInTheLastBin) {
    EXPECT_EQ(reliability({said("open", "open", 1.0)})[9].right.count, 1);
}

TEST(Score, SurpriseByHand) {
    EXPECT_THAT(mean_surprise_bits({said("open", "open", 0.5), said("open", "open", 0.25)}),
                DoubleNear(1.5, 1e-12));
    EXPECT_THAT(mean_surprise_bits({said("open", "healthy", 1.0)}), DoubleNear(30.0, 1e-12));
}

TEST(Score, NoAnswerIsWrong) {
    Outcome silent;
    silent.fault = "healthy";
    EXPECT_EQ(accuracy({silent}).hits, 0);
    EXPECT_EQ(healthy_or_not({silent}).hits, 0);
    EXPECT_EQ(reliability({silent})[0].right.count, 0);
}

TEST(Score, DecidedByHand) {
    const std::vector<Outcome> outcomes{said("open", "open", 0.99), said("open", "healthy", 0.97),
                                        said("open", "healthy", 0.5)};
    EXPECT_EQ(decided(outcomes).hits, 2);
    EXPECT_EQ(wrong_when_decided(outcomes).hits, 1);
    EXPECT_EQ(wrong_when_decided(outcomes).count, 2);
}

TEST(Score, CoverageCountsTheTrueFaultOnly) {
    Outcome inside = said("turns-off", "wrong-wire", 0.6);
    inside.severities = {{"turns_factor", 0.8}};
    inside.estimates = {{"turns_factor", {0.7, 0.78, 0.86}}};
    Outcome outside = inside;
    outside.severities = {{"turns_factor", 0.9}};
    Outcome silent = inside;
    silent.estimates.clear();
    const Coverage row = coverage({inside, outside, silent}).at("turns-off: turns_factor");
    EXPECT_EQ(row.inside.hits, 1);
    EXPECT_EQ(row.inside.count, 2);
    EXPECT_EQ(row.not_estimated, 1);
    EXPECT_THAT(row.median_width, DoubleNear(0.16 / 0.8, 1e-12));
}

TEST(Score, RuleOfThumbLooksAtResistanceOnly) {
    std::vector<Outcome> outcomes(4);
    for (Outcome& outcome : outcomes)
        outcome.nominal_resistance_ohm = 6000.0;
    outcomes[0].fault = "healthy";
    outcomes[0].resistance_read_ohm = 6500.0; // right
    outcomes[1].fault = "healthy";
    outcomes[1].resistance_read_ohm = 6700.0; // wrong: 11.7 %
    outcomes[2].fault = "shorted-turns";
    outcomes[2].resistance_read_ohm = 5900.0; // wrong
    outcomes[3].fault = "open";               // right: no number
    EXPECT_EQ(rule_of_thumb(outcomes).hits, 2);
}

/// Wilson's interval for 8 of 10 is 0.4902 to 0.9433 (published worked value of the score interval).
TEST(Score, WilsonInterval) {
    EXPECT_THAT(half_width_95({8, 10}), DoubleNear((0.9433 - 0.4902) / 2.0, 1e-4));
}

} // namespace
} // namespace population
