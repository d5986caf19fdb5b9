#include "rewind/implied_turns.h"

#include "diagnosis/coil_prior.h"
#include "units/engineering.h"

#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

double middle(const Range& range) {
    return std::sqrt(range.low * range.high);
}

void add_implied(TurnsCheck& turns, const Checked& checked, const CoilModel& model) {
    if (!checked.reading || checked.judged.value <= 0.0) return;
    const CoilPrior prior = coil_prior(model, {});
    const double measured = checked.judged.standard_uncertainty / checked.judged.value;
    if (checked.requirement.quantity == Quantity::dc_resistance) {
        const double n = middle(*model.turns) * checked.judged.value / middle(model.dc_resistance_ohm);
        turns.implied.push_back(
            {"DC resistance", {n, n * std::hypot(measured, deviation_of(prior, Unknown::ohm_per_turn))}});
    }
    if (checked.requirement.quantity == Quantity::inductance && model.inductance_h &&
        checked.requirement.from.starts_with("the coil model")) {
        const double n =
            middle(*model.turns) * std::sqrt(checked.judged.value / middle(checked.requirement.limits));
        turns.implied.push_back(
            {"inductance",
             {n, n / 2.0 * std::hypot(measured, deviation_of(prior, Unknown::henry_per_turn2))}});
    }
}

std::string beside(const ImpliedTurns& implied, const Uncertain& counted) {
    const double difference = implied.turns.value - counted.value;
    const double u = std::hypot(implied.turns.standard_uncertainty, counted.standard_uncertainty);
    return fmt::format("{} {} the counter: {:+.0f} turns, standard uncertainty {:.0f}", implied.from,
                       std::abs(difference) < 2.0 * u ? "agrees with" : "disagrees with", difference, u);
}

} // namespace

TurnsCheck turns_check(const std::vector<Checked>& checked, const CoilModel* model,
                       const std::optional<Uncertain>& counted) {
    TurnsCheck turns{.counted = counted};
    if (model == nullptr || !model->turns) {
        turns.says.emplace_back("no coil model gives turns, so the readings imply none");
        return turns;
    }
    for (const Checked& each : checked)
        add_implied(turns, each, *model);
    if (!counted)
        turns.says.emplace_back("the counter's turns were not told");
    else
        for (const ImpliedTurns& implied : turns.implied)
            turns.says.push_back(beside(implied, *counted));
    return turns;
}

} // namespace coilward
