#include "rewind/plan.h"

#include "metrology/normal.h"
#include "rewind/figures.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <stdexcept>

namespace coilward {
namespace {

struct FigureName {
    const char* name;
    const char* unit;
};

constexpr std::array<FigureName, figure_count> names{{{"turns", "1"},
                                                      {"wire_length", "m"},
                                                      {"wire_mass", "kg"},
                                                      {"layers", "1"},
                                                      {"winding_depth", "m"},
                                                      {"depth_left", "m"},
                                                      {"fill", "1"},
                                                      {"dc_resistance_20", "ohm"},
                                                      {"dc_resistance", "ohm"},
                                                      {"inductance", "H"},
                                                      {"resonance_frequency", "Hz"},
                                                      {"loaded_resonance_frequency", "Hz"}}};

/// An input that is not known exactly, and how to move it.
struct Input {
    const char* name;
    double standard_uncertainty;
    std::function<void(Job&, double)> move;
};

void move_core_length(Job& job, double by_m) {
    if (job.bobbin.core.straight_length_m > 0.0) job.bobbin.core.straight_length_m += by_m;
}

/// A wider core within the same length and the same flanges.
void move_core_width(Job& job, double by_m) {
    Outline& core = job.bobbin.core;
    if (core.straight_width_m > 0.0) {
        core.straight_width_m += by_m;
    } else {
        core.corner_radius_m += by_m / 2.0;
        if (core.straight_length_m > 0.0) core.straight_length_m -= by_m;
    }
    job.bobbin.depth_m -= by_m / 2.0;
}

std::vector<Input> inputs_of(const Job& job) {
    const double u = job.length_uncertainty_m;
    std::vector<Input> inputs{
        {"the target", job.target.wanted.standard_uncertainty,
         [](Job& j, double d) { j.target.wanted.value += d; }},
        {"the wire's ohm per metre", job.spool.ohm_per_metre_20.standard_uncertainty,
         [](Job& j, double d) { j.spool.ohm_per_metre_20.value += d; }},
        {"the wire's overall diameter", job.spool.overall_diameter_m.standard_uncertainty,
         [](Job& j, double d) { j.spool.overall_diameter_m.value += d; }},
        {"how loosely it is wound", job.packing.standard_uncertainty,
         [](Job& j, double d) { j.packing.value += d; }},
        {"the core's length", u, move_core_length},
        {"the core's width", u, move_core_width},
        {"the wound height", u, [](Job& j, double d) { j.bobbin.height_m += d; }},
        {"the flange's width", u, [](Job& j, double d) { j.bobbin.depth_m += d / 2.0; }},
        {"the temperature", job.temperature_c.standard_uncertainty,
         [](Job& j, double d) { j.temperature_c.value += d; }},
    };
    if (job.coil) {
        inputs.push_back({"henry per turn²", job.coil->henry_per_turn2.standard_uncertainty,
                          [](Job& j, double d) { j.coil->henry_per_turn2.value += d; }});
        inputs.push_back({"the self-capacitance", job.coil->self_capacitance_f.standard_uncertainty,
                          [](Job& j, double d) { j.coil->self_capacitance_f.value += d; }});
    }
    return inputs;
}

/// Sensitivity of every figure to one standard uncertainty of an input, by a central difference over a tenth.
FigureValues effects_of(const Job& job, double turns, const Input& input) {
    constexpr double part = 0.1;
    Job more = job;
    Job less = job;
    input.move(more, part * input.standard_uncertainty);
    input.move(less, -part * input.standard_uncertainty);
    const FigureValues above = figures_of(more, turns);
    const FigureValues below = figures_of(less, turns);
    FigureValues effects{};
    for (std::size_t k = 0; k < figure_count; ++k)
        effects[k] = (above[k] - below[k]) / (2.0 * part);
    return effects;
}

struct Cause {
    double variance = 0.0;
    double greatest = 0.0;
    const char* name = "";
};

std::array<Cause, figure_count> causes_of(const Job& job, double turns) {
    std::array<Cause, figure_count> causes{};
    for (const Input& input : inputs_of(job)) {
        if (input.standard_uncertainty == 0.0) continue;
        const FigureValues effects = effects_of(job, turns, input);
        for (std::size_t k = 0; k < figure_count; ++k) {
            const double variance = effects[k] * effects[k];
            causes[k].variance += variance;
            if (variance <= causes[k].greatest) continue;
            causes[k].greatest = variance;
            causes[k].name = input.name;
        }
    }
    return causes;
}

Plan plan_of_turns(const Job& job, double turns) {
    const FigureValues values = figures_of(job, turns);
    const auto causes = causes_of(job, turns);
    Plan plan{.turns = turns};
    for (std::size_t k = 0; k < figure_count; ++k)
        if (std::isfinite(values[k]))
            plan.figures.push_back(
                {.name = names[k].name,
                 .unit = names[k].unit,
                 .value = values[k],
                 .standard_uncertainty = std::sqrt(causes[k].variance),
                 .main_cause = causes[k].name,
                 .cause_share = causes[k].variance > 0.0 ? causes[k].greatest / causes[k].variance : 0.0});
    constexpr auto left = static_cast<std::size_t>(FigureOf::depth_left);
    plan.fit = {.depth_left_m = values[left],
                .standard_uncertainty_m = std::sqrt(causes[left].variance),
                .may_decide = job.spool.overall_basis != Basis::unverified};
    plan.fit.probability = plan.fit.standard_uncertainty_m > 0.0
                               ? normal_cumulative(plan.fit.depth_left_m / plan.fit.standard_uncertainty_m)
                               : (plan.fit.depth_left_m >= 0.0 ? 1.0 : 0.0);
    return plan;
}

void require_physical(const Job& job) {
    const double packing = job.packing.value;
    if (!(packing > 0.0 && packing <= densest_packing))
        throw std::invalid_argument(
            "round wire cannot lie denser than 1.155 turns to a square of its diameter; give "
            "a packing above 0 and up to that");
    if (!(job.target.wanted.value > 0.0))
        throw std::invalid_argument("a target of 0 or less is no winding; give one above 0");
}

std::vector<std::string> notes_on(const Job& job) {
    std::vector<std::string> notes;
    if (job.spool.overall_basis == Basis::unverified)
        notes.emplace_back(
            "the overall diameter of this wire rests on no published source: measure it over ten turns "
            "side by side and give it with --overall-diameter before you trust the fit");
    if (job.spool.overall_basis == Basis::pattern)
        notes.emplace_back(
            "the greatest overall diameter of this wire is not published here: it is taken as twice "
            "the least increase");
    if (job.tape_m == 0.0) notes.emplace_back("no tape around the winding is counted; give it with --tape");
    if (!job.coil)
        notes.emplace_back(
            "no inductance and no resonance: name a coil model with --model, or a sister coil");
    return notes;
}

} // namespace

Plan plan_of(const Job& job) {
    require_physical(job);
    Plan plan = plan_of_turns(job, std::round(turns_for_target(job)));
    plan.notes = notes_on(job);
    return plan;
}

std::vector<OtherWire> with_other_wires(const Job& job, double turns, const std::vector<Spool>& spools) {
    std::vector<OtherWire> others;
    for (const Spool& spool : spools) {
        Job other = job;
        other.spool = spool;
        others.push_back({spool.title, plan_of_turns(other, turns), turns_for_target(other)});
    }
    return others;
}

} // namespace coilward
