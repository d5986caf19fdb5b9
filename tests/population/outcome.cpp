#include "outcome.h"

#include "json_lines.h"

#include <fstream>
#include <stdexcept>

#include <nlohmann/json.hpp>

namespace population {
namespace {

using Json = nlohmann::ordered_json;

Outcome labelled(const Json& label) {
    Outcome outcome;
    outcome.id = label.at("id");
    outcome.fault = label.at("fault");
    outcome.coil_model = label.at("coil_model");
    outcome.world = label.at("world");
    outcome.protocol = label.at("protocol");
    outcome.nominal_resistance_ohm = label.at("nominal_resistance");
    if (label.contains("resistance_read"))
        outcome.resistance_read_ohm = label["resistance_read"].get<double>();
    for (const auto& [name, value] : label.items())
        if (value.is_number() && name != "nominal_resistance" && name != "resistance_read")
            outcome.severities[name] = value;
    return outcome;
}

void add_answer(const Json& answer, Outcome& outcome) {
    outcome.answered = true;
    const Json& verdict = answer.at("verdict");
    outcome.named = verdict.at("fault");
    outcome.probability = verdict.at("probability");
    outcome.decided = verdict.at("decided");
    for (const Json& fault : answer.at("faults")) {
        outcome.probabilities[fault.at("fault")] = fault.at("probability");
        if (fault.at("fault") != outcome.fault) continue;
        for (const Json& estimate : fault.at("estimates"))
            outcome.estimates[estimate.at("name")] = {estimate.at("low"), estimate.at("value"),
                                                      estimate.at("high")};
    }
}

} // namespace

std::vector<Outcome> read_outcomes(const std::filesystem::path& labels,
                                   const std::filesystem::path& answers) {
    std::map<std::string, Json> by_id;
    for (const Json& answer : json_lines(answers))
        if (answer.contains("id") && answer.contains("verdict")) by_id.emplace(answer["id"], answer);
    std::vector<Outcome> outcomes;
    for (const Json& label : json_lines(labels)) {
        outcomes.push_back(labelled(label));
        if (const auto found = by_id.find(outcomes.back().id); found != by_id.end())
            add_answer(found->second, outcomes.back());
    }
    return outcomes;
}

} // namespace population
