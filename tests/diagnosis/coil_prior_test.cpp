#include "diagnosis/coil_prior.h"
#include "diagnosis/prediction.h"

#include <cmath>
#include <random>
#include <vector>

#include <gtest/gtest.h>

// What coils drawn from a prior measure, beside the ranges of the model that it was made of. A model's range
// holds 95 in 100 (docs/formats-rules.md).

namespace coilward {
namespace {

constexpr double count = 20000;

/// An invented model with narrow turns and a range of Q, so that its unknowns vary together.
const CoilModel model{.id = "invented",
                      .turns = Range{7500, 8450},
                      .dc_resistance_ohm = {5550, 7100},
                      .inductance_h = Range{2.05, 3.0},
                      .quality_factor = Range{1.9, 2.6}};

/// Coils at 20 °C: mean + L⁻ᵀ·z, where L·Lᵀ is the precision.
std::vector<Values> coils_of(const CoilPrior& prior) {
    std::mt19937 random(20261127);
    std::normal_distribution<double> normal;
    const auto factored = prior.precision.llt();
    std::vector<Values> coils;
    for (int i = 0; i < static_cast<int>(count); ++i) {
        Vector z(prior.precision.rows());
        for (double& each : z)
            each = normal(random);
        const Vector offset = factored.matrixU().solve(z);
        Values coil = prior.mean;
        for (std::size_t k = 0; k < coil_unknown_count; ++k)
            coil[k] += offset[static_cast<Eigen::Index>(k)];
        coils.push_back(coil);
    }
    return coils;
}

double share_within(const std::vector<Values>& coils, const Reading& reading, const Range& range) {
    double within = 0.0;
    for (Values coil : coils) {
        at(coil, Unknown::temperature) = 20.0;
        const double value = predict(reading, Primitive::none, coil)->value;
        if (value >= range.low && value <= range.high) within += 1.0;
    }
    return within / count;
}

Reading at_1_khz(Quantity quantity) {
    return {
        .quantity = quantity, .between = Between::leads, .circuit = Circuit::series, .frequency_hz = 1000.0};
}

TEST(CoilPrior, SpreadsAsTheModelsRangesDo) {
    const auto coils = coils_of(coil_prior(model, {}));
    const Reading resistance{.quantity = Quantity::dc_resistance, .between = Between::leads};
    EXPECT_NEAR(share_within(coils, resistance, model.dc_resistance_ohm), 0.95, 0.01);
    EXPECT_NEAR(share_within(coils, at_1_khz(Quantity::inductance), *model.inductance_h), 0.95, 0.01);
    EXPECT_NEAR(share_within(coils, at_1_khz(Quantity::quality_factor), *model.quality_factor), 0.95, 0.02);
}

TEST(CoilPrior, TellsHowEachUnknownSpreadsWhateverTheOthersAre) {
    const CoilPrior prior = coil_prior(model, {});
    const auto coils = coils_of(prior);
    for (std::size_t k = 0; k < coil_unknown_count; ++k) {
        double squares = 0.0;
        for (const Values& coil : coils)
            squares += std::pow(coil[k] - prior.mean[k], 2);
        const double deviation = std::sqrt(squares / count);
        EXPECT_NEAR(deviation_of(prior, static_cast<Unknown>(k)) / deviation, 1.0, 0.02) << "unknown " << k;
    }
    // With the others held, henry per turn² would spread less: turns and Q go with it.
    constexpr auto henry = static_cast<Eigen::Index>(Unknown::henry_per_turn2);
    EXPECT_GT(deviation_of(prior, Unknown::henry_per_turn2), 1.1 / std::sqrt(prior.precision(henry, henry)));
}

} // namespace
} // namespace coilward
