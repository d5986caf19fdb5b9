// Laplace's method against a plain Monte Carlo integral over 100,000 coils a fault (the textbook estimator: a
// mean of likelihoods over draws from the prior). The readings are invented and blunt, as of a cheap meter:
// of sharp ones too few draws come near. Blunt ones are also where Laplace's method is at its worst: a blunt
// quality factor bounds the eddy currents and does not measure them, and trades them for a short or a
// control. By Laplace's method alone a probability is then off by 0.07 (long_tails.h).

#include "diagnosis/brute_force_posterior.h"
#include "diagnosis/diagnosis.h"
#include "reading/examination_json.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

constexpr std::size_t draws_a_fault = 100'000;

struct Row {
    const char* title;
    double as_near;
    const char* document;
};

const Row rows[] = {
    {"a little low in everything", 0.02, R"({"coil_model": "six-rod-42", "readings": [
{"quantity": "temperature", "value": 22, "standard_uncertainty": 2},
{"quantity": "dc_resistance", "value": 5650, "standard_uncertainty": 120},
{"quantity": "inductance", "circuit": "series", "frequency": 1000, "value": 2.02, "standard_uncertainty": 0.08},
{"quantity": "quality_factor", "frequency": 1000, "value": 1.85, "standard_uncertainty": 0.12}]})"},
    {"resistance alone", 0.02, R"({"coil_model": "six-rod-42", "readings": [
{"quantity": "temperature", "value": 22, "standard_uncertainty": 2},
{"quantity": "dc_resistance", "value": 5500, "standard_uncertainty": 120}]})"},
    {"resistance and both capacitances to the frame", 0.02, R"({"coil_model": "six-rod-42", "readings": [
{"quantity": "temperature", "value": 22, "standard_uncertainty": 2},
{"quantity": "dc_resistance", "value": 6900, "standard_uncertainty": 140},
{"quantity": "capacitance", "between": "start-frame", "frequency": 1000, "value": 7e-11, "standard_uncertainty": 1e-11},
{"quantity": "capacitance", "between": "finish-frame", "frequency": 1000, "value": 7e-11, "standard_uncertainty": 1e-11}]})"},
    {"low inductance and quality", 0.02, R"({"coil_model": "six-rod-42", "readings": [
{"quantity": "temperature", "value": 20, "standard_uncertainty": 2},
{"quantity": "dc_resistance", "value": 6000, "standard_uncertainty": 120},
{"quantity": "inductance", "circuit": "series", "frequency": 1000, "value": 2.1, "standard_uncertainty": 0.1},
{"quantity": "quality_factor", "frequency": 1000, "value": 1.6, "standard_uncertainty": 0.1}]})"},
};

TEST(BruteForce, FindsTheSameProbabilities) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    for (const Row& row : rows) {
        SCOPED_TRACE(row.title);
        const Examination examination = examination_from_json(row.document);
        const auto brute = testing::brute_force_posterior(rules, examination, draws_a_fault, 20261126);
        for (const FaultProbability& fault : diagnose(rules, examination).faults)
            EXPECT_NEAR(fault.probability, brute.at(fault.fault), row.as_near) << fault.fault;
    }
}

} // namespace
} // namespace coilward
