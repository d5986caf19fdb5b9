#include "cli/command.h"
#include "cli/history.h"
#include "cli/input.h"
#include "cli/quantity_words.h"
#include "report/confirmation_page.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct Words {
    std::string pickup, coil;
    std::vector<std::string> limits;
    std::string as_it_was; ///< per cent
    std::string turns, temperature;
    std::string least_insulation = "10M";
    double probability = 0.95;
    RecordPeople people{.program = "coilward"};
    bool json = false;
    bool html = false;
};

/// "dc_resistance=5.9k..6.4k" or "inductance@1kHz=2.2..2.5".
Requirement requirement_in(const std::string& words) {
    const auto equals = words.find('=');
    const auto left = words.substr(0, equals);
    const auto at = left.find('@');
    const auto quantity = quantity_named(left.substr(0, at));
    if (equals == std::string::npos || !quantity || unit(*quantity).empty())
        throw CLI::ValidationError(
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

std::string coil_model_id(const Pickup& pickup, const Words& words) {
    const auto coil = std::ranges::find(pickup.coils, words.coil, &PickupCoil::name);
    if (coil != pickup.coils.end()) return coil->coil_model;
    if (pickup.coils.empty() && words.coil.empty()) return "";
    std::vector<std::string> names;
    for (const PickupCoil& each : pickup.coils)
        names.push_back(each.name);
    throw CLI::ValidationError(
        "--coil", fmt::format("{} has the coils {}; say which one", pickup.name, fmt::join(names, ", ")));
}

/// An order's limits take the place of others for the same quantity.
void put_order(std::vector<Requirement>& requirements, const Words& words) {
    for (const std::string& limit : words.limits) {
        const Requirement ordered = requirement_in(limit);
        std::erase_if(requirements, [&](const Requirement& r) {
            return r.quantity == ordered.quantity && r.from != "the order";
        });
        requirements.push_back(ordered);
    }
}

std::vector<StoredReading> last_readings(const History& history, const Pickup& pickup) {
    return current_readings(history.readings_of(history.visits_of(pickup.id).back().id));
}

std::vector<Requirement> requirements_in(const Words& words, const History& history, const Pickup& pickup,
                                         const Rules& rules, const CoilModel* model) {
    std::vector<Requirement> requirements;
    if (!words.as_it_was.empty()) {
        const auto was = as_it_was(history, pickup, words.coil);
        if (!was)
            throw CLI::ValidationError(
                "--as-it-was",
                fmt::format(
                    "{} has no earlier visit that judged this coil sound and read its DC resistance; give "
                    "--limit, or leave it to the coil model",
                    pickup.name));
        requirements = requirements_of(*was, positive_in_words("--as-it-was", words.as_it_was, "1"));
    } else if (model != nullptr) {
        requirements = at_frequencies_read(requirements_of(*model), last_readings(history, pickup),
                                           words.coil, *model, rules.allowed(*model));
    }
    put_order(requirements, words);
    if (requirements.empty())
        throw CLI::ValidationError(fmt::format(
            "{}: it has no coil model and no order; say --limit QUANTITY=LOW..HIGH", pickup.name));
    return requirements;
}

ConfirmationRule rule_in(const Words& words, const Rules& rules) {
    ConfirmationRule rule{.conformance_probability = words.probability,
                          .least_insulation_ohm =
                              positive_in_words("--least-insulation", words.least_insulation, "ohm"),
                          .bench = rules.bench_readings};
    if (!words.temperature.empty())
        rule.temperature_c = uncertain_in_words("--temperature", words.temperature, "degC", 1.0);
    if (!words.turns.empty()) rule.counted_turns = uncertain_in_words("--turns", words.turns, "1", 0.0);
    return rule;
}

void run(const Words& words, const Session& session) {
    const History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words.pickup);
    const auto visits = history.visits_of(pickup.id);
    if (visits.empty())
        throw BadInput(fmt::format("{}: nothing was read of it yet; coilward examine {} reads it",
                                   pickup.name, pickup.number));
    const std::string model_id = coil_model_id(pickup, words);
    const Rules rules = rules_of(session);
    const CoilModel* model = rules.coil_model(model_id);
    if (model == nullptr && !model_id.empty())
        throw CLI::ValidationError(fmt::format(
            "{}: there is no coil model \"{}\"; coilward models lists them", pickup.name, model_id));
    const auto confirmation =
        confirm(pickup, visits.back(), words.coil, last_readings(history, pickup),
                requirements_in(words, history, pickup, rules, model), rule_in(words, rules), model);
    if (words.json)
        fmt::print("{}\n", confirmation_to_json(confirmation, words.people));
    else
        fmt::print("{}", words.html ? confirmation_record(confirmation, words.people)
                                    : confirmation_page(confirmation, words.people));
}

} // namespace

void add_confirm_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<Words>();
    CLI::App* command =
        app.add_subcommand("confirm", "Confirm a rewind: its latest visit against its limits");
    command->add_option("PICKUP", words->pickup, "Its number, its name, or the beginning of its name")
        ->required();
    command->add_option("--coil", words->coil, "Which coil, where it has several")->type_name("COIL");
    command
        ->add_option("--limit", words->limits,
                     "Of an order, at 20 °C: QUANTITY=LOW..HIGH or QUANTITY@FREQUENCY=LOW..HIGH")
        ->type_name("LIMIT")
        ->take_all();
    command
        ->add_option(
            "--as-it-was", words->as_it_was,
            "Within so many per cent of what it measured when it was last sound, in place of the model")
        ->type_name("PERCENT");
    command->add_option("--turns", words->turns, "What the counter said");
    command->add_option("--temperature", words->temperature,
                        "Of the coil, °C, as 21.5±0.5, where the visit has none");
    command->add_option("--least-insulation", words->least_insulation, "From the coil to the frame")
        ->capture_default_str();
    command->add_option("--conformance", words->probability, "Probability that guards each limit")
        ->check(CLI::Range(0.5, 0.9999))
        ->capture_default_str();
    command->add_option("--tested-by", words->people.tested_by, "Name on the record");
    command->add_option("--remarks", words->people.remarks, "Remarks on the record");
    auto* json = command->add_flag("--json", words->json, "As one JSON document");
    command->add_flag("--html", words->html, "As a page that prints on one sheet")->excludes(json);
    command->footer("Example:\n  coilward confirm neck --turns 7950 --limit dc_resistance=5.9k..6.4k --html "
                    "> record.html");
    command->callback([words, &session] { run(*words, session); });
}

} // namespace coilward
