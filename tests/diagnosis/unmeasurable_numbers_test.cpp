#include "diagnosis/diagnosis.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

// Numbers that the readings document allows but no meter shows: whatever they are, the answer is a set of
// probabilities, and the person is told what was left out.

namespace coilward {
namespace {

constexpr double values[]{0.0, 1e-300, 1e-12, 1.0, 6112.0, 1e12, 1e300, -5.0, -250.0};
constexpr double uncertainties[]{1e-300, 1e-9, 9.0, 1e300};

Reading reading_of(Quantity quantity, double value, double standard_uncertainty) {
    Reading reading{.quantity = quantity, .value = value, .standard_uncertainty = standard_uncertainty};
    if (needs_frequency(quantity)) reading.frequency_hz = 1000.0;
    return reading;
}

Diagnosis judged(const Rules& rules, Reading reading) {
    Examination examination;
    examination.coil_model = "six-rod-42";
    examination.readings = {std::move(reading)};
    return diagnose(rules, examination);
}

void expect_probabilities(const Diagnosis& diagnosis) {
    double sum = 0.0;
    for (const FaultProbability& fault : diagnosis.faults) {
        EXPECT_TRUE(std::isfinite(fault.probability)) << fault.fault;
        sum += fault.probability;
    }
    EXPECT_NEAR(sum, 1.0, 1e-9);
    for (const Reason& reason : diagnosis.reasons)
        EXPECT_TRUE(std::isfinite(reason.decibans)) << reason.reading;
}

TEST(UnmeasurableNumbers, LeaveProbabilities) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    for (const Quantity quantity :
         {Quantity::dc_resistance, Quantity::inductance, Quantity::capacitance, Quantity::quality_factor,
          Quantity::phase_angle, Quantity::temperature, Quantity::resonance_frequency})
        for (const double value : values)
            for (const double uncertainty : uncertainties) {
                // The readings document refuses a resonance at 0 or below, so that none comes here.
                if (quantity == Quantity::resonance_frequency && value <= 0.0) continue;
                SCOPED_TRACE(testing::Message() << name(quantity) << " " << value << " ± " << uncertainty);
                expect_probabilities(judged(rules, reading_of(quantity, value, uncertainty)));
            }
}

TEST(UnmeasurableNumbers, LeaveProbabilitiesAsLimitsToo) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    for (const double limit : {1e-300, 1e300}) {
        Reading reading{.quantity = Quantity::dc_resistance, .state = State::over_range, .limit = limit};
        expect_probabilities(judged(rules, reading));
    }
}

TEST(UnmeasurableNumbers, AreNamedInTheNotes) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    const Diagnosis diagnosis = judged(rules, reading_of(Quantity::dc_resistance, 6112.0, 1e300));
    EXPECT_EQ(std::ranges::count(diagnosis.notes,
                                 "DC resistance: not used, its numbers are beyond what any meter shows"),
              1);
}

} // namespace
} // namespace coilward
