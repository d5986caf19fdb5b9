#include "bench/clock.h"
#include "cli/command.h"
#include "cli/history.h"
#include "cli/input.h"
#include "cli/plan_words.h"
#include "cli/quantity_words.h"
#include "report/plan_page.h"
#include "rewind/coil_knowledge.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct Words {
    BobbinWords bobbin;
    WireWords wire;
    std::string turns, resistance, inductance, as_it_was, coil; // the target
    std::string model, sister_turns, sister_inductance, self_capacitance;
    std::string packing, temperature;
    std::string load_resistance, load_capacitance;
    bool json = false;
};

Target target_of_pickup(const Words& words, const Session& session) {
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

Target target_in(const Words& words, const Session& session) {
    if (!words.as_it_was.empty()) return target_of_pickup(words, session);
    if (!words.turns.empty())
        return {TargetKind::turns, {positive_in_words("--turns", words.turns, "1"), 0.0}, "said"};
    if (!words.resistance.empty())
        return {TargetKind::dc_resistance,
                {positive_in_words("--dc-resistance", words.resistance, "ohm"), 0.0},
                "said"};
    return {TargetKind::inductance, {positive_in_words("--inductance", words.inductance, "H"), 0.0}, "said"};
}

/// What a plan takes where nobody says better, and why it may.
struct Assumed {
    const char* value;
    const char* from;
};

constexpr Assumed usual_packing{"0.75+-0.08", "assumed: 0.75 ± 0.08, own estimate for scatter winding"};
constexpr Assumed usual_temperature{"21+-2", "assumed: 21 ± 2 °C, an ordinary bench"};

/// What a coil of unknown model may have beside its own inductance: an estimate that covers the capacitances
/// of published measurements (docs/rewinding.md).
constexpr Uncertain usual_self_capacitance_f{100e-12, 40e-12};
constexpr auto usual_self_capacitance_from =
    "assumed: 100 ± 40 pF, own estimate; --model or --self-capacitance says better";

const CoilModel* model_in(const Words& words, const Rules& rules) {
    if (words.model.empty()) return nullptr;
    const CoilModel* model = rules.coil_model(words.model);
    if (model == nullptr)
        throw CLI::ValidationError(
            "--model", fmt::format("there is no coil model \"{}\"; coilward models lists them", words.model));
    return model;
}

std::optional<CoilKnowledge> knowledge_in(const Words& words, const Rules& rules, const CoilModel* model,
                                          std::vector<InputSource>& sources) {
    std::optional<CoilKnowledge> knowledge;
    if (model != nullptr) knowledge = knowledge_from(*model, rules.allowed(*model));
    std::string capacitance_from = knowledge ? knowledge->from : usual_self_capacitance_from;
    if (!words.sister_turns.empty())
        knowledge = knowledge_from_sister(
            uncertain_in_words("--sister-turns", words.sister_turns, "1", 0.0),
            uncertain_in_words("--sister-inductance", words.sister_inductance, "H", 0.0),
            knowledge.value_or(
                CoilKnowledge{.self_capacitance_f = usual_self_capacitance_f, .from = "nothing"}));
    if (!knowledge) return knowledge;
    if (!words.self_capacitance.empty()) {
        knowledge->self_capacitance_f =
            uncertain_in_words("--self-capacitance", words.self_capacitance, "F", 0.0);
        capacitance_from = "said";
    }
    sources.push_back({"henry per turn²", knowledge->from});
    sources.push_back({"self-capacitance", capacitance_from});
    return knowledge;
}

std::optional<Load> load_in(const Words& words) {
    if (words.load_resistance.empty() && words.load_capacitance.empty()) return std::nullopt;
    if (words.load_resistance.empty() || words.load_capacitance.empty())
        throw CLI::ValidationError("--controls", "give --controls and --cable together");
    return Load{.resistance_ohm = positive_in_words("--controls", words.load_resistance, "ohm"),
                .capacitance_f = positive_in_words("--cable", words.load_capacitance, "F")};
}

/// What was said, or else what is assumed.
std::string said_or(const std::string& words, const Assumed& usual, const char* input,
                    std::vector<InputSource>& sources) {
    sources.push_back({input, words.empty() ? usual.from : "said"});
    return words.empty() ? usual.value : words;
}

Job job_in(Words& words, const Session& session) {
    const Rules rules = words.model.empty() ? Rules{} : rules_of(session);
    const CoilModel* model = model_in(words, rules);
    std::vector<InputSource> sources;
    complete(words.bobbin, words.wire, model, sources);
    Job job = job_on(words.bobbin);
    job.spool = spool_in(words.wire);
    sources.push_back({"ohm per metre", words.wire.ohm_per_metre.empty() ? "the wire's standard" : "said"});
    sources.push_back(
        {"overall diameter", words.wire.overall_diameter.empty() ? "the wire's standard" : "said"});
    job.packing =
        uncertain_in_words("--packing", said_or(words.packing, usual_packing, "packing", sources), "1", 0.0);
    job.temperature_c = uncertain_in_words(
        "--temperature", said_or(words.temperature, usual_temperature, "temperature", sources), "degC", 1.0);
    job.target = target_in(words, session);
    job.coil = knowledge_in(words, rules, model, sources);
    job.load = load_in(words);
    job.sources = std::move(sources);
    return job;
}

void run(Words words, const Session& session) {
    const Job job = job_in(words, session);
    try {
        Plan plan = plan_of(job);
        if (!job.coil)
            plan.notes.push_back(
                fmt::format("without magnets and steel the winding alone would have {:.3g} H; they "
                            "only add to that",
                            plan.turns * plan.turns * least_henry_per_turn2(job, plan.turns)));
        const auto others = with_other_wires(job, plan.turns, neighbours_of(words.wire));
        if (words.json)
            fmt::print("{}\n", plan_to_json(job, plan, others));
        else
            fmt::print("{}", plan_page(job, plan, others));
    } catch (const std::invalid_argument& error) {
        throw CLI::ValidationError("plan", error.what());
    }
}

void add_target_options(CLI::App& command, Words& words) {
    auto* target = command.add_option_group("target", "One of");
    target->add_option("--turns", words.turns, "Turns to wind");
    target->add_option("--dc-resistance", words.resistance, "DC resistance at 20 °C to reach, such as 6.2k");
    target->add_option("--inductance", words.inductance, "Inductance to reach, such as 2.4 (H)");
    target
        ->add_option("--as-it-was", words.as_it_was,
                     "A pickup of the history: the DC resistance it had when it was last sound")
        ->type_name("PICKUP");
    target->require_option(1);
    command.add_option("--coil", words.coil, "Which coil of that pickup, where it has several")
        ->type_name("COIL");
}

void add_electrical_options(CLI::App& command, Words& words) {
    command
        .add_option("--model", words.model, "Coil model: its henry per turn², capacitance, bobbin and gauge")
        ->type_name("MODEL");
    auto* turns = command.add_option("--sister-turns", words.sister_turns,
                                     "Turns of a coil of the same construction, such as 8000±20");
    auto* inductance =
        command.add_option("--sister-inductance", words.sister_inductance, "and its inductance");
    turns->needs(inductance);
    inductance->needs(turns);
    command.add_option("--self-capacitance", words.self_capacitance,
                       "Of the winding, such as 110p±20p, in place of the coil model's");
    command.add_option("--controls", words.load_resistance,
                       "Volume and tone controls across the leads, such as 250k");
    command.add_option("--cable", words.load_capacitance, "Cable across the leads, such as 500p");
    command.add_option("--temperature", words.temperature, "Of the bench, °C, as 21.5±0.5; else 21 ± 2");
    command.add_option(
        "--packing", words.packing,
        "Turns to a square of the wire's diameter: 1 for neat layers, less by hand; else 0.75 ± 0.08");
}

} // namespace

void add_plan_command(CLI::App& app, Session& session) {
    auto words = std::make_shared<Words>();
    CLI::App* command =
        app.add_subcommand("plan", "Plan a winding: turns, wire, fit, resistance, inductance");
    add_bobbin_options(*command, words->bobbin);
    add_wire_options(*command, words->wire);
    add_target_options(*command, *words);
    add_electrical_options(*command, *words);
    command->add_flag("--json", words->json, "Answer as one JSON document");
    command->footer(
        "Example:\n  coilward plan --core 56mm,4.8mm --flange 70mm,16mm --height 10.5mm --tape 0.2mm \\\n"
        "                --awg 42 --dc-resistance 6.1k --model six-rod-42 --controls 250k --cable 500p");
    command->callback([words, &session] { run(*words, session); });
}

} // namespace coilward
