#include "diagnosis/own_history.h"
#include "diagnosis/prediction.h"
#include "rules/rules.h"

#include <cmath>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

namespace coilward {
namespace {

constexpr double high_hz = 10000.0;

Reading question(Quantity quantity, std::optional<double> frequency_hz = {}) {
    Reading asked{.quantity = quantity, .frequency_hz = frequency_hz};
    if (frequency_hz) asked.circuit = Circuit::series;
    return asked;
}

double shown(const Reading& asked, const Values& values) {
    return predict(asked, Primitive::none, values)->value;
}

/// What such a coil shows at 1 and 10 kHz, each known to half a per cent.
std::vector<Reading> readings_of(const Values& values) {
    std::vector<Reading> readings{
        question(Quantity::temperature),         question(Quantity::dc_resistance),
        question(Quantity::inductance, 1000.0),  question(Quantity::ac_resistance, 1000.0),
        question(Quantity::inductance, high_hz), question(Quantity::ac_resistance, high_hz)};
    for (Reading& reading : readings) {
        reading.value = shown(reading, values);
        reading.standard_uncertainty = 0.005 * std::abs(*reading.value);
    }
    return readings;
}

/// The middle coil of a model, but for a self-capacitance with which it resonates at this frequency.
Values resonating_at(double frequency_hz, const CoilPrior& prior) {
    Values values = prior.mean;
    const double log_henry = 2.0 * at(values, Unknown::turns) + at(values, Unknown::henry_per_turn2);
    at(values, Unknown::self_capacitance) =
        -2.0 * std::log(2.0 * std::numbers::pi * frequency_hz) - log_henry;
    return values;
}

/// Below and above the frequency of the meter; on one side is the model's middle coil, where the search
/// begins.
TEST(OwnHistory, ExpectsWhatWasReadOnEitherSideOfAResonance) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    const CoilModel& model = *rules.coil_model("six-rod-42");
    const CoilPrior prior = coil_prior(model, rules.allowed(model));
    for (const double resonance_hz : {7000.0, 8000.0, 12500.0, 14000.0}) {
        SCOPED_TRACE(resonance_hz);
        const Values coil = resonating_at(resonance_hz, prior);
        const OwnHistory history = own_history(
            rules, prior, {{.at = "2026-03-02T10:00:00Z", .healthy = true, .readings = readings_of(coil)}});
        const auto ratio = [&](double frequency_hz) {
            const Reading asked = question(Quantity::inductance, frequency_hz);
            return shown(asked, history.prior.mean) / shown(asked, coil);
        };
        EXPECT_NEAR(ratio(1000.0), 1.0, 0.02);
        // The model's own error at this frequency and its middle capacitance leave no more.
        EXPECT_GT(ratio(high_hz), 0.6);
        EXPECT_LT(ratio(high_hz), 1.6);
    }
}

} // namespace
} // namespace coilward
