#include "guide/loss_uncertainty.h"

#include <cmath>
#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// Turning an impedance of angle φ by a small angle e changes tan φ as the uncertainty says.
TEST(LossUncertainty, IsThatOfAnImpedanceTurnedByTheMetersError) {
    constexpr double error = 1e-4;
    for (const double q : {0.2, 1.0, 2.4, 40.0, 3000.0}) {
        const double angle = std::atan(q);
        const double inductance_error = error * std::hypot(1.0, 1.0 / q); // as data sheets state it
        std::vector<Reading> readings{
            {.quantity = Quantity::inductance, .value = 2.0, .standard_uncertainty = 2.0 * inductance_error},
            {.quantity = Quantity::quality_factor, .value = q},
            {.quantity = Quantity::dissipation_factor, .value = 1.0 / q}};
        add_loss_uncertainty(readings);
        const double q_moves =
            std::abs(std::tan(angle + 1e-3 * error) - std::tan(angle - 1e-3 * error)) / 2e-3;
        const double d_moves = q_moves / (q * q);
        EXPECT_NEAR(readings[1].standard_uncertainty.value() / q_moves, 1.0, 1e-3) << q;
        EXPECT_NEAR(readings[2].standard_uncertainty.value() / d_moves, 1.0, 1e-3) << q;
    }
}

TEST(LossUncertainty, LeavesAloneWhatItCannotKnow) {
    std::vector<Reading> readings{{.quantity = Quantity::inductance, .value = 2.0},
                                  {.quantity = Quantity::quality_factor, .value = 2.4}};
    add_loss_uncertainty(readings);
    EXPECT_FALSE(readings[1].standard_uncertainty);
    readings[0].standard_uncertainty = 0.002;
    readings[1].standard_uncertainty = 0.5;
    add_loss_uncertainty(readings);
    EXPECT_DOUBLE_EQ(readings[1].standard_uncertainty.value(), 0.5) << "the meter's own says more";
}

} // namespace
} // namespace coilward
