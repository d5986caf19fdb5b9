#include "rewind/confirmation_words.h"

#include "rewind/damage_condition.h"
#include "rewind/quantity_words.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {
namespace {

/// "dc_resistance=5.9k..6.4k" or "inductance@1kHz=2.2..2.5".
Requirement requirement_in(const std::string& words) {
    const auto equals = words.find('=');
    const auto left = words.substr(0, equals);
    const auto at = left.find('@');
    const auto quantity = quantity_named(left.substr(0, at));
    if (equals == std::string::npos || !quantity || unit(*quantity).empty())
        throw BadWords(
            "--limit",
            fmt::format("\"{}\" is no limit; write QUANTITY=LOW..HIGH, such as dc_resistance=5.9k..6.4k or "
                        "inductance@1kHz=2.2..2.5",
                        words));
    Requirement requirement{.quantity = *quantity, .from = "the order"};
    if (at != std::string::npos)
        requirement.frequency_hz = positive_in_words("--limit", left.substr(at + 1), "Hz");
    requirement.limits = limits_in_words("--limit", words.substr(equals + 1), unit(*quantity));
    return requirement;
}

std::string coil_model_id(const Pickup& pickup, const ConfirmationWords& words) {
    const auto coil = std::ranges::find(pickup.coils, words.coil, &PickupCoil::name);
    if (coil != pickup.coils.end()) return coil->coil_model;
    if (pickup.coils.empty() && words.coil.empty()) return "";
    std::vector<std::string> names;
    for (const PickupCoil& each : pickup.coils)
        names.push_back(each.name);
    throw BadWords("--coil",
                   fmt::format("{} has the coils {}; say which one", pickup.name, fmt::join(names, ", ")));
}

/// An order's limits take the place of others for the same quantity.
void put_order(std::vector<Requirement>& requirements, const ConfirmationWords& words) {
    for (const std::string& limit : words.limits) {
        const Requirement ordered = requirement_in(limit);
        std::erase_if(requirements, [&](const Requirement& r) {
            return r.quantity == ordered.quantity && r.from != "the order";
        });
        requirements.push_back(ordered);
    }
}

std::vector<Requirement> requirements_in(const ConfirmationWords& words, const History& history,
                                         const Pickup& pickup, const std::vector<StoredReading>& readings,
                                         const Rules& rules, const CoilModel* model) {
    std::vector<Requirement> requirements;
    if (!words.as_it_was.empty()) {
        const auto was = as_it_was(history, pickup, words.coil);
        if (!was)
            throw BadWords(
                "--as-it-was",
                fmt::format(
                    "{} has no earlier visit that judged this coil sound and read its DC resistance; give "
                    "--limit, or leave it to the coil model",
                    pickup.name));
        requirements = requirements_of(*was, positive_in_words("--as-it-was", words.as_it_was, "1"));
    } else if (model != nullptr) {
        requirements =
            at_frequencies_read(requirements_of(*model), readings, words.coil, *model, rules.allowed(*model));
    }
    put_order(requirements, words);
    if (requirements.empty())
        throw BadWords(fmt::format("{}: it has no coil model and no order; say --limit QUANTITY=LOW..HIGH",
                                   pickup.name));
    return requirements;
}

ConfirmationRule rule_in(const ConfirmationWords& words, const Rules& rules) {
    ConfirmationRule rule{.conformance_probability = words.probability,
                          .least_insulation_ohm =
                              positive_in_words("--least-insulation", words.least_insulation, "ohm"),
                          .bench = rules.bench_readings};
    if (!words.temperature.empty())
        rule.temperature_c = uncertain_in_words("--temperature", words.temperature, "degC", 1.0);
    if (!words.turns.empty()) rule.counted_turns = uncertain_in_words("--turns", words.turns, "1", 0.0);
    return rule;
}

/// The pickup's coil model of that coil; null where it names none.
const CoilModel* model_of(const ConfirmationWords& words, const Pickup& pickup, const Rules& rules) {
    const std::string id = coil_model_id(pickup, words);
    const CoilModel* model = rules.coil_model(id);
    if (model == nullptr && !id.empty())
        throw BadWords(
            fmt::format("{}: there is no coil model \"{}\"; coilward models lists them", pickup.name, id));
    return model;
}

} // namespace

Confirmation confirm(const ConfirmationWords& words, const History& history, const Pickup& pickup,
                     const Rules& rules) {
    const CoilModel* model = model_of(words, pickup, rules);
    const Visit visit = history.visits_of(pickup.id).back();
    const std::vector<StoredReading> readings = current_readings(history.readings_of(visit.id));
    std::optional<HardCondition> damage;
    if (model) damage = damage_condition(rules, *model, current_readings_of_coil(readings, words.coil));
    return confirm(pickup, visit, words.coil, readings,
                   requirements_in(words, history, pickup, readings, rules, model), rule_in(words, rules),
                   model, damage);
}

} // namespace coilward
