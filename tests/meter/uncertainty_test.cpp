#include "meter/uncertainty.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

DecodedReading decoded(Quantity quantity, double value, double resolution, double frequency_hz) {
    DecodedReading made(quantity, {});
    made.resolution = resolution;
    made.reading.value = value;
    made.reading.frequency_hz = frequency_hz;
    made.reading.circuit = Circuit::series;
    return made;
}

TEST(Uncertainty, FollowsFromPercentAndCountsOfADataSheet) {
    // "Two-wire ohm example 6.350 kilohm, (0.2 % + 2), 20 kilohm range, 1 ohm digit": half-width 14.7 ohm;
    // divided by the square root of 3, 8.487048957 ohm. Accuracy class: a college laboratory's table of meter
    // specifications.
    Driver driver;
    driver.accuracy.push_back(
        {.quantity = Quantity::dc_resistance, .percent = 0.2, .counts = 2.0, .source = "test"});
    const auto u = standard_uncertainty(driver, decoded(Quantity::dc_resistance, 6350.0, 1.0, 0.0), {});
    ASSERT_TRUE(u);
    EXPECT_NEAR(*u, 8.487048957, 1e-8);
}

Driver low_q_driver() {
    Driver driver;
    driver.accuracy.push_back(
        {.quantity = Quantity::inductance, .percent = 0.05, .worse_at_low_quality = true, .source = "test"});
    return driver;
}

TEST(Uncertainty, GrowsWhereTheResistancePrevails) {
    // 2.2 H at 120 Hz with Q 0.27646015: D = 3.61716, sqrt(1 + D²) = 3.75285 by hand; 0.05 % of 2.2 H is 1.1
    // mH.
    const auto u =
        standard_uncertainty(low_q_driver(), decoded(Quantity::inductance, 2.2, 1e-5, 120.0), 0.27646015);
    ASSERT_TRUE(u);
    EXPECT_NEAR(*u, 1.1e-3 * 3.75285 / 1.7320508, 1e-7);
}

TEST(Uncertainty, IsNotClaimedWhereQIsNeededAndNotKnown) {
    EXPECT_FALSE(standard_uncertainty(low_q_driver(), decoded(Quantity::inductance, 2.2, 1e-5, 120.0), {}));
    EXPECT_FALSE(
        standard_uncertainty(low_q_driver(), decoded(Quantity::capacitance, 1e-10, 1e-15, 120.0), 5.0));
}

TEST(QualityFactor, IsTakenFromTheFrameItself) {
    // 2.2 H and 6 kilohm at 1 kHz and 120 Hz: Q 2.30383461 and 0.27646015.
    for (const auto& [frequency_hz, q] : {std::pair(1000.0, 2.30383461), std::pair(120.0, 0.27646015)}) {
        const auto found = quality_factor_of({decoded(Quantity::inductance, 2.2, 0.0, frequency_hz),
                                              decoded(Quantity::ac_resistance, 6000.0, 0.0, frequency_hz)});
        ASSERT_TRUE(found);
        EXPECT_NEAR(*found, q, 1e-8);
    }
    EXPECT_EQ(quality_factor_of({decoded(Quantity::quality_factor, 2.5, 0.0, 1000.0)}), 2.5);
    EXPECT_EQ(quality_factor_of({decoded(Quantity::dissipation_factor, 0.02, 0.0, 1000.0)}), 50.0);
    EXPECT_FALSE(quality_factor_of({decoded(Quantity::inductance, 2.2, 0.0, 1000.0)}));
    EXPECT_FALSE(quality_factor_of({decoded(Quantity::inductance, 2.2, 0.0, 1000.0),
                                    decoded(Quantity::ac_resistance, -3.0, 0.0, 1000.0)}));
}

} // namespace
} // namespace coilward
