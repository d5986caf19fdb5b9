#include "bench/clock.h"
#include "cli/command.h"
#include "cli/history.h"
#include "cli/input.h"
#include "cli/plan_options.h"
#include "report/plan_page.h"
#include "rewind/coil_knowledge.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct PlanCommandWords {
    PlanWords plan;
    std::string as_it_was, coil; // the target, from the history
    std::string model;
    bool json = false;
};

Target target_of_pickup(const PlanCommandWords& words, const Session& session) {
    const History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words.as_it_was);
    const auto was = as_it_was(history, pickup, words.coil);
    if (!was)
        throw CLI::ValidationError(
            "--as-it-was",
            fmt::format("{} has no visit that judged this coil sound and read its DC resistance; give "
                        "--turns, --dc-resistance or --inductance",
                        pickup.name));
    return {TargetKind::dc_resistance, was->resistance_20_ohm,
            fmt::format("as it was on {}", text_of(was->at).substr(0, 10))};
}

const CoilModel* model_in(const PlanCommandWords& words, const Rules& rules) {
    if (words.model.empty()) return nullptr;
    const CoilModel* model = rules.coil_model(words.model);
    if (model == nullptr)
        throw CLI::ValidationError(
            "--model", fmt::format("there is no coil model \"{}\"; coilward models lists them", words.model));
    return model;
}

void run(const PlanCommandWords& words, const Session& session) {
    const Rules rules = words.model.empty() ? Rules{} : rules_of(session);
    const CoilModel* model = model_in(words, rules);
    std::optional<Target> target;
    if (!words.as_it_was.empty()) target = target_of_pickup(words, session);
    const auto [job, plan, others] =
        plan_in_words(words.plan, model, model ? rules.allowed(*model) : AllowedRanges{}, target);
    if (words.json)
        fmt::print("{}\n", plan_to_json(job, plan, others));
    else
        fmt::print("{}", plan_page(job, plan, others));
}

void add_target_options(CLI::App& command, PlanCommandWords& words) {
    auto* target = command.add_option_group("target", "One of");
    target->add_option("--turns", words.plan.turns, "Turns to wind");
    target->add_option("--dc-resistance", words.plan.resistance,
                       "DC resistance at 20 °C to reach, such as 6.2k");
    target->add_option("--inductance", words.plan.inductance, "Inductance to reach, such as 2.4 (H)");
    target
        ->add_option("--as-it-was", words.as_it_was,
                     "A pickup of the history: the DC resistance it had when it was last sound")
        ->type_name("PICKUP");
    target->require_option(1);
    command.add_option("--coil", words.coil, "Which coil of that pickup, where it has several")
        ->type_name("COIL");
}

void add_electrical_options(CLI::App& command, PlanCommandWords& words) {
    command
        .add_option("--model", words.model, "Coil model: its henry per turn², capacitance, bobbin and gauge")
        ->type_name("MODEL");
    auto* turns = command.add_option("--sister-turns", words.plan.sister_turns,
                                     "Turns of a coil of the same construction, such as 8000±20");
    auto* inductance =
        command.add_option("--sister-inductance", words.plan.sister_inductance, "and its inductance");
    turns->needs(inductance);
    inductance->needs(turns);
    command.add_option("--self-capacitance", words.plan.self_capacitance,
                       "Of the winding, such as 110p±20p, in place of the coil model's");
    command.add_option("--controls", words.plan.load_resistance,
                       "Volume and tone controls across the leads, such as 250k");
    command.add_option("--cable", words.plan.load_capacitance, "Cable across the leads, such as 500p");
    command.add_option("--temperature", words.plan.temperature, "Of the bench, °C, as 21.5±0.5; else 21 ± 2");
    command.add_option(
        "--packing", words.plan.packing,
        "Turns to a square of the wire's diameter: 1 for neat layers, less by hand; else 0.75 ± 0.08");
}

} // namespace

void add_plan_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<PlanCommandWords>();
    CLI::App* command =
        app.add_subcommand("plan", "Plan a winding: turns, wire, fit, resistance, inductance");
    add_bobbin_options(*command, words->plan.bobbin);
    add_wire_options(*command, words->plan.wire);
    add_target_options(*command, *words);
    add_electrical_options(*command, *words);
    command->add_flag("--json", words->json, "Answer as one JSON document");
    command->footer(
        "Example:\n  coilward plan --core 56mm,4.8mm --flange 70mm,16mm --height 10.5mm --tape 0.2mm \\\n"
        "                --awg 42 --dc-resistance 6.1k --model six-rod-42 --controls 250k --cable 500p");
    command->callback([words, &session] { run(*words, session); });
}

} // namespace coilward
