#include "messages.h"
#include "metrology/conformity.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace coilward {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

struct ProbabilityRow {
    const char* what;
    double measured;
    double standard_uncertainty;
    double low;
    double high;
    double probability;
};

// Each probability computed from the inputs that stand here, as a difference of normal distribution
// functions.
const ProbabilityRow probability_rows[] = {
    {"upper limit, voltage", -5.47, 0.05, -infinity, -5.40, 0.91924334},
    {"lower limit, pressure", 509.7, 8.6, 490, infinity, 0.98900955},
    {"two limits, viscosity", 13.6, 1.8, 12.5, 16.3, 0.66262979},
    {"fraction of conforming resistors, 1500 ohm ± 0.2 ohm, spread 0.12 ohm", 1500, 0.12, 1499.8, 1500.2,
     0.90441930},
    {"z = 0", 0, 1, -infinity, 0, 0.5},
    {"z = 1", 0, 1, -infinity, 1, 0.84134475},
    {"z = 1.28", 0, 1, -infinity, 1.28, 0.89972743},
    {"z = 1.645", 0, 1, -infinity, 1.645, 0.95001509},
    {"z = 2", 0, 1, -infinity, 2, 0.97724987},
    {"z = 2.33", 0, 1, -infinity, 2.33, 0.99009692},
    {"z = 3", 0, 1, -infinity, 3, 0.99865010},
};

TEST(ProbabilityWithin, IsThatOfTheNormalDistribution) {
    for (const auto& row : probability_rows)
        EXPECT_NEAR(probability_within(row.measured, row.standard_uncertainty, row.low, row.high),
                    row.probability, 6e-9)
            << row.what;
}

TEST(ProbabilityWithin, KeepsItsDigitsFarOutside) {
    // Upper tail at 4.5 standard uncertainties: 3.397673e-6, printed 3.4e-6 in a public library on
    // conformity.
    const auto p = standing_probabilities(0.0, 1.0, 4.5, infinity);
    EXPECT_NEAR(p.within / 3.397673e-6, 1.0, 2e-7);
    EXPECT_NEAR(standing_probabilities(0.0, 1.0, -infinity, -4.5).within / 3.397673e-6, 1.0, 2e-7);
    EXPECT_GT(probability_within(0.0, 1.0, 20.0, 30.0), 0.0);
    EXPECT_GT(probability_within(0.0, 1.0, -30.0, -20.0), 0.0);
}

TEST(StandingProbabilities, SumToOne) {
    for (const double measured : {-9.0, -1.5, 0.2, 1.0, 3.0, 12.0}) {
        const auto p = standing_probabilities(measured, 1.0, -1.0, 2.0);
        EXPECT_NEAR(p.below + p.within + p.above, 1.0, 1e-15) << measured;
    }
}

TEST(StandingProbabilities, AreCertainWithoutUncertainty) {
    EXPECT_EQ(standing_probabilities(5.0, 0.0, 6.0, 7.0).below, 1.0);
    EXPECT_EQ(standing_probabilities(6.0, 0.0, 6.0, 7.0).within, 1.0);
    EXPECT_EQ(standing_probabilities(7.0, 0.0, 6.0, 7.0).within, 1.0);
    EXPECT_EQ(standing_probabilities(8.0, 0.0, 6.0, 7.0).above, 1.0);
}

/// The largest risk of false acceptance with one limit: at the acceptance limit, a guard band away from it.
struct RiskRow {
    const char* what;
    double guard_band_in_u;
    double risk;
};

// Computed. The first and the last are also printed ("< 2.5 %", "< 50 %") on decision-rule pages quoting
// ILAC-G8:09/2019.
const RiskRow risk_rows[] = {
    {"w = U, U = 2u", 2.0, 0.02275013},     {"w = U, U = 1.96u", 1.959963984540054, 0.02500000},
    {"w = 1.64u", 1.64, 0.05050258},        {"w = 0.83U, U = 2u", 1.66, 0.04845723},
    {"w = 0, simple acceptance", 0.0, 0.5},
};

TEST(SpecificRisk, AtTheAcceptanceLimitIsThatOfTheGuardBand) {
    constexpr double u = 9.0;
    constexpr double upper_limit = 6600.0;
    for (const auto& row : risk_rows) {
        const auto p =
            standing_probabilities(upper_limit - row.guard_band_in_u * u, u, -infinity, upper_limit);
        EXPECT_NEAR(p.above, row.risk, 6e-9) << row.what;
        EXPECT_NEAR(guard_band(u, 1.0 - row.risk) / u, row.guard_band_in_u, 1e-6) << row.what;
    }
}

// One-sided normal quantiles, computed to six decimals.
const struct {
    double probability;
    double z;
} quantile_rows[] = {{0.8, 0.841621}, {0.9, 1.281552}, {0.95, 1.644854}, {0.99, 2.326348}, {0.999, 3.090232}};

TEST(GuardBand, IsTheQuantileTimesTheUncertainty) {
    for (const auto& row : quantile_rows) {
        EXPECT_NEAR(guard_band(1.0, row.probability), row.z, 6e-7) << row.probability;
        EXPECT_NEAR(guard_band(30.0, row.probability), 30.0 * row.z, 2e-5) << row.probability;
    }
    EXPECT_EQ(guard_band(9.0, 0.5), 0.0);
    EXPECT_EQ(guard_band(0.0, 0.95), 0.0);
}

// Limits 5700 to 6600 ohm, standard uncertainty 10 ohm; 16.45 ohm is where 95 % is reached.
const struct {
    double measured;
    Standing standing;
    Decision decision;
} decided_rows[] = {
    {5600.0, Standing::below, Decision::fail},
    {5683.5, Standing::below, Decision::fail},
    {5683.6, Standing::undecided, Decision::measure_better},
    {5700.0, Standing::undecided, Decision::measure_better},
    {5716.4, Standing::undecided, Decision::measure_better},
    {5716.5, Standing::within, Decision::pass},
    {6100.0, Standing::within, Decision::pass},
    {6583.5, Standing::within, Decision::pass},
    {6583.6, Standing::undecided, Decision::measure_better},
    {6616.4, Standing::undecided, Decision::measure_better},
    {6616.5, Standing::above, Decision::fail},
    {7000.0, Standing::above, Decision::fail},
};

TEST(Standing, ChangesWhereTheProbabilityPassesTheDecisionProbability) {
    for (const auto& row : decided_rows)
        EXPECT_EQ(standing(row.measured, 10.0, 5700.0, 6600.0), row.standing) << row.measured;
}

TEST(Conformity, DecidesByTheGuardBand) {
    for (const auto& row : decided_rows) {
        const auto result = conformity(row.measured, 10.0, 5700.0, 6600.0);
        EXPECT_EQ(result.decision, row.decision) << row.measured;
        EXPECT_NEAR(result.guard_band, 16.44854, 6e-6);
        EXPECT_NEAR(result.accept_from, 5716.44854, 6e-6);
        EXPECT_NEAR(result.accept_to, 6583.55146, 6e-6);
        EXPECT_EQ(result.probability_within, probability_within(row.measured, 10.0, 5700.0, 6600.0));
    }
}

TEST(Conformity, PassesNothingWhereTheMeterIsTooCoarse) {
    // The interval is 20 ohm wide and the guard bands take 32.9 ohm.
    const auto result = conformity(6000.0, 10.0, 5990.0, 6010.0);
    EXPECT_EQ(result.decision, Decision::measure_better);
    EXPECT_LT(result.accept_to, result.accept_from);
    EXPECT_EQ(standing(6000.0, 10.0, 5990.0, 6010.0), Standing::undecided);
}

TEST(Conformity, HasItsWords) {
    EXPECT_EQ(name(Standing::below), "below");
    EXPECT_EQ(name(Standing::within), "within");
    EXPECT_EQ(name(Standing::above), "above");
    EXPECT_EQ(name(Standing::undecided), "undecided");
    EXPECT_EQ(name(Decision::pass), "pass");
    EXPECT_EQ(name(Decision::fail), "fail");
    EXPECT_EQ(name(Decision::measure_better), "measure better");
}

TEST(Conformity, RefusesWhatCannotBeDecided) {
    EXPECT_EQ(message_of([] { probability_within(std::nan(""), 1.0, 0.0, 1.0); }),
              "a measured value of nan has no standing; give a number");
    EXPECT_EQ(message_of([] { probability_within(0.0, -1.0, 0.0, 1.0); }),
              "a standard uncertainty of -1 is impossible; give 0 or more");
    EXPECT_EQ(message_of([] { probability_within(0.0, 1.0, 2.0, 1.0); }),
              "limits from 2 to 1 hold nothing; give the lower first");
    EXPECT_EQ(message_of([] { standing(0.0, 1.0, 0.0, 1.0, 0.5); }),
              "a decision probability of 0.5 decides nothing; give one above 0.5 and at most 1");
    EXPECT_EQ(message_of([] { guard_band(1.0, 1.0); }),
              "a conformance probability of 1 has no guard band; give one from 0.5 to below 1");
}

} // namespace
} // namespace coilward
