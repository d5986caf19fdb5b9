// The probabilities of all faults, by diagnose() and by a plain Monte Carlo integral over drawn coils.

#include "beside/cpu_time.h"
#include "beside/row.h"
#include "diagnosis/brute_force_posterior.h"
#include "diagnosis/diagnosis.h"
#include "reading/examination_json.h"

#include <cmath>
#include <map>
#include <string>

#include <fmt/format.h>

namespace coilward {
namespace {

struct Case {
    const char* title;
    const char* readings;
};

// Invented and blunt: of sharp readings 100,000 draws come near too seldom to say anything.
const Case cases[] = {
    {"resistance alone", R"({"quantity": "dc_resistance", "value": 5500, "standard_uncertainty": 120})"},
    {"resistance and both capacitances to the frame",
     R"({"quantity": "dc_resistance", "value": 6900, "standard_uncertainty": 140},
{"quantity": "capacitance", "between": "start-frame", "frequency": 1000, "value": 7e-11, "standard_uncertainty": 1e-11},
{"quantity": "capacitance", "between": "finish-frame", "frequency": 1000, "value": 7e-11, "standard_uncertainty": 1e-11})"},
    {"resistance, inductance and quality factor",
     R"({"quantity": "dc_resistance", "value": 5650, "standard_uncertainty": 120},
{"quantity": "inductance", "circuit": "series", "frequency": 1000, "value": 2.02, "standard_uncertainty": 0.08},
{"quantity": "quality_factor", "frequency": 1000, "value": 1.85, "standard_uncertainty": 0.12})"},
};

Row row_of(const Rules& rules, const Case& each) {
    constexpr std::size_t draws_a_fault = 100'000;
    const Examination examination = examination_from_json(fmt::format(
        R"({{"coil_model": "six-rod-42", "readings": [
{{"quantity": "temperature", "value": 22, "standard_uncertainty": 2}},
{}]}})",
        each.readings));
    std::map<std::string, double> brute;
    const SecondsBeside seconds = least_beside(
        timed([&] { diagnose(rules, examination); }),
        timed([&] { brute = testing::brute_force_posterior(rules, examination, draws_a_fault, 20261126); }));
    double greatest = 0.0;
    for (const FaultProbability& fault : diagnose(rules, examination).faults)
        greatest = std::max(greatest, std::abs(fault.probability - brute.at(fault.fault)));
    return {.work = fmt::format("one diagnosis: {}", each.title),
            .beside = "brute force, 100,000 draws a fault",
            .our_seconds = seconds.ours,
            .their_seconds = seconds.theirs,
            .least_ratio = 500.0,
            .agreement = fmt::format("largest difference of a probability {:.3f}", greatest)};
}

} // namespace

std::vector<Row> rows_of_posterior() {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    std::vector<Row> rows;
    for (const Case& each : cases)
        rows.push_back(row_of(rules, each));
    return rows;
}

} // namespace coilward
