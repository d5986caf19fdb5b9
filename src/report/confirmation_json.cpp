#include "reading/json_line.h"
#include "reading/reading_json.h"
#include "report/confirmation_page.h"
#include "report/confirmation_words.h"
#include "report/limits_json.h"

#include <cmath>

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

Json form_of(const Checked& checked) {
    const Requirement& requirement = checked.requirement;
    Json form{{"quantity", name(requirement.quantity)}, {"unit", unit(requirement.quantity)}};
    if (requirement.frequency_hz) form["frequency"] = *requirement.frequency_hz;
    form["limits"] = limits_form(requirement.limits.low, requirement.limits.high);
    form["limits_from"] = requirement.from;
    form["decision"] = name(checked.conformity.decision);
    form["says"] = checked.says;
    if (checked.judged.value == 0.0) return form;
    form["value_at_20"] = checked.judged.value;
    form["standard_uncertainty"] = checked.judged.standard_uncertainty;
    form["probability_within"] = checked.conformity.probability_within;
    form["guard_band"] = checked.conformity.guard_band;
    if (checked.reading) form["reading"] = text_of(checked.reading->id);
    return form;
}

Json form_of(const TurnsCheck& turns) {
    Json form = Json::object();
    if (turns.counted) form["counted"] = turns.counted->value;
    form["implied"] = Json::array();
    for (const ImpliedTurns& implied : turns.implied)
        form["implied"].push_back({{"from", implied.from},
                                   {"value", implied.turns.value},
                                   {"standard_uncertainty", implied.turns.standard_uncertainty}});
    form["says"] = turns.says;
    return form;
}

Json form_of(const StoredReading& stored) {
    Json form{{"id", text_of(stored.id)}, {"at", text_of(stored.at)}};
    form.update(readings_form(stored.reading));
    if (!stored.meter.empty()) form["meter"] = stored.meter;
    if (!stored.port.empty()) form["port"] = stored.port;
    return form;
}

} // namespace

std::string confirmation_to_json(const Confirmation& confirmation, const RecordPeople& people) {
    Json document{{"pickup", text_of(confirmation.pickup.id)},
                  {"name", confirmation.pickup.name},
                  {"coil", confirmation.coil},
                  {"visit", text_of(confirmation.visit.id)},
                  {"at", text_of(confirmation.visit.at)},
                  {"decision", name(confirmation.decision)},
                  {"conformance_probability", confirmation.rule.conformance_probability},
                  {"temperature", confirmation.temperature_c.value},
                  {"temperature_uncertainty", confirmation.temperature_c.standard_uncertainty},
                  {"temperature_was_read", confirmation.temperature_was_read},
                  {"tested_by", people.tested_by},
                  {"remarks", people.remarks},
                  {"checked", Json::array()},
                  {"conditions", Json::array()},
                  {"turns", form_of(confirmation.turns)},
                  {"readings", Json::array()}};
    for (const Checked& checked : confirmation.checked)
        document["checked"].push_back(form_of(checked));
    for (const HardCondition& condition : confirmation.conditions)
        document["conditions"].push_back({{"condition", condition.name},
                                          {"decision", name(condition.decision)},
                                          {"says", condition.says}});
    for (const StoredReading& stored : confirmation.readings)
        document["readings"].push_back(form_of(stored));
    return on_one_line(document);
}

} // namespace coilward
