#include "rewind/plan_words.h"

#include "rewind/coil_knowledge.h"
#include "rewind/quantity_words.h"

#include <stdexcept>
#include <utility>

#include <fmt/format.h>

namespace coilward {
namespace {

/// The rules' own complaints, as those of the option.
template <typename Work>
auto in_option(const char* option, const Work& work) {
    try {
        return work();
    } catch (const std::invalid_argument& error) {
        throw BadWords(option, error.what());
    }
}

struct Size {
    double length_m;
    double width_m;
    bool round;
};

/// "56mm,4.8mm" or a diameter alone. A comma parts the two, so a decimal is written with a point here.
Size size_in_words(const char* option, const std::string& words) {
    const auto comma = words.find(',');
    if (comma == std::string::npos) {
        const double diameter = positive_in_words(option, words, "m");
        return {diameter, diameter, true};
    }
    return {positive_in_words(option, words.substr(0, comma), "m"),
            positive_in_words(option, words.substr(comma + 1), "m"), false};
}

Build build_in(const WireWords& words) {
    return words.heavy ? Build::heavy : Build::single;
}

AwgDiameter diameter_in(const WireWords& words) {
    return words.exact ? AwgDiameter::exact : AwgDiameter::nominal;
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

std::optional<CoilKnowledge> knowledge_in(const PlanWords& words, const AllowedRanges& allowed,
                                          const CoilModel* model, std::vector<InputSource>& sources) {
    std::optional<CoilKnowledge> knowledge;
    if (model != nullptr) knowledge = knowledge_from(*model, allowed);
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

std::optional<Load> load_in(const PlanWords& words) {
    if (words.load_resistance.empty() && words.load_capacitance.empty()) return std::nullopt;
    if (words.load_resistance.empty() || words.load_capacitance.empty())
        throw BadWords("--controls", "give --controls and --cable together");
    return Load{.resistance_ohm = positive_in_words("--controls", words.load_resistance, "ohm"),
                .capacitance_f = positive_in_words("--cable", words.load_capacitance, "F")};
}

/// What was said, or else what is assumed.
std::string said_or(const std::string& words, const Assumed& usual, const char* input,
                    std::vector<InputSource>& sources) {
    sources.push_back({input, words.empty() ? usual.from : "said"});
    return words.empty() ? usual.value : words;
}

Target target_in(const PlanWords& words) {
    if (!words.turns.empty())
        return {TargetKind::turns, {positive_in_words("--turns", words.turns, "1"), 0.0}, "said"};
    if (!words.resistance.empty())
        return {TargetKind::dc_resistance,
                {positive_in_words("--dc-resistance", words.resistance, "ohm"), 0.0},
                "said"};
    if (words.inductance.empty())
        throw BadWords("target", "say one of --turns, --dc-resistance, --inductance or --as-it-was");
    return {TargetKind::inductance, {positive_in_words("--inductance", words.inductance, "H"), 0.0}, "said"};
}

} // namespace

void complete(BobbinWords& bobbin, WireWords& wire, const CoilModel* model,
              std::vector<InputSource>& sources) {
    const std::string of_model = model == nullptr ? "" : fmt::format("the coil model {}", model->id);
    const BobbinSize size = model == nullptr ? BobbinSize{} : model->bobbin;
    const auto complete_one = [&](const char* option, const char* input, std::string& words, auto known,
                                  auto in_words) {
        const bool said = !words.empty();
        if (!said && !known)
            throw BadWords(option,
                           model == nullptr
                               ? "say it, or name a coil model that has a [bobbin] with --model"
                               : fmt::format("say it; {} does not tell ({} has it in [bobbin] and [wire])",
                                             of_model, model->file));
        if (!said) words = in_words();
        sources.push_back({input, said ? "said" : of_model});
    };
    complete_one("--core", "core", bobbin.core, size.core_length_m && size.core_width_m,
                 [&] { return fmt::format("{},{}", *size.core_length_m, *size.core_width_m); });
    complete_one("--flange", "flange", bobbin.flange, size.flange_length_m && size.flange_width_m,
                 [&] { return fmt::format("{},{}", *size.flange_length_m, *size.flange_width_m); });
    complete_one("--height", "wound height", bobbin.height, size.wound_height_m.has_value(),
                 [&] { return fmt::format("{}", *size.wound_height_m); });
    std::string gauge = wire.awg != 0 ? std::to_string(wire.awg) : wire.metric;
    complete_one("--awg", "wire size", gauge, model != nullptr && model->wire.awg,
                 [&] { return std::to_string(*model->wire.awg); });
    if (wire.metric.empty()) wire.awg = std::stoi(gauge);
}

Job job_on(const BobbinWords& words) {
    const Size core = size_in_words("--core", words.core);
    const Size flange = size_in_words("--flange", words.flange);
    Job job;
    job.bobbin.core = in_option("--core", [&] {
        if (!words.corner.empty())
            return block_outline(core.length_m, core.width_m,
                                 positive_in_words("--corner", words.corner, "m"));
        return core.round ? round_outline(core.length_m / 2.0)
                          : racetrack_outline(core.length_m, core.width_m);
    });
    job.bobbin.depth_m = in_option("--flange", [&] {
        return flange_depth_m(core.length_m, core.width_m, flange.length_m, flange.width_m);
    });
    job.bobbin.height_m = positive_in_words("--height", words.height, "m");
    job.length_uncertainty_m = positive_in_words("--bobbin-uncertainty", words.uncertainty, "m");
    if (!words.tape.empty()) job.tape_m = positive_in_words("--tape", words.tape, "m");
    return job;
}

Spool spool_in(const WireWords& words) {
    SpoolMeasured measured;
    if (!words.ohm_per_metre.empty())
        measured.ohm_per_metre_20 = uncertain_in_words("--ohm-per-metre", words.ohm_per_metre, "ohm");
    if (!words.overall_diameter.empty())
        measured.overall_diameter_m = uncertain_in_words("--overall-diameter", words.overall_diameter, "m");
    if (words.metric.empty())
        return in_option("--awg", [&] {
            return with_measured(awg_spool(words.awg, diameter_in(words), build_in(words)), measured);
        });
    return in_option("--metric", [&] {
        return with_measured(metric_spool(positive_in_words("--metric", words.metric, "m"), build_in(words)),
                             measured);
    });
}

std::vector<Spool> neighbours_of(const WireWords& words) {
    if (words.metric.empty()) return next_gauges(words.awg, diameter_in(words), build_in(words));
    return next_metric_sizes(positive_in_words("--metric", words.metric, "m"), build_in(words));
}

namespace {

/// What the words leave open is put into them.
Job job_in(PlanWords& words, const CoilModel* model, const AllowedRanges& allowed,
           const std::optional<Target>& target) {
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
    job.target = target ? *target : target_in(words);
    job.coil = knowledge_in(words, allowed, model, sources);
    job.load = load_in(words);
    job.sources = std::move(sources);
    return job;
}

} // namespace

WholePlan plan_in_words(PlanWords words, const CoilModel* model, const AllowedRanges& allowed,
                        const std::optional<Target>& target) {
    WholePlan whole;
    whole.job = job_in(words, model, allowed, target);
    try {
        whole.plan = plan_of(whole.job);
        if (!whole.job.coil)
            whole.plan.notes.push_back(fmt::format(
                "without magnets and steel the winding alone would have {:.3g} H; they only add to that",
                whole.plan.turns * whole.plan.turns * least_henry_per_turn2(whole.job, whole.plan.turns)));
        whole.others = with_other_wires(whole.job, whole.plan.turns, neighbours_of(words.wire));
    } catch (const std::invalid_argument& error) {
        throw BadWords("plan", error.what());
    }
    return whole;
}

} // namespace coilward
