#include "rewind/coil_knowledge.h"

#include "diagnosis/coil_prior.h"
#include "history/coil_readings.h"
#include "rewind/temperature.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

Uncertain unknown_of(const CoilPrior& prior, Unknown unknown) {
    const double value = std::exp(at(prior.mean, unknown));
    return {value, value * deviation_of(prior, unknown)};
}

const Reading* last_of(const std::vector<Reading>& readings, Quantity quantity, const std::string& coil) {
    const auto found = std::find_if(readings.rbegin(), readings.rend(), [&](const Reading& reading) {
        return reading.quantity == quantity && reading.between == Between::leads && reading.coil == coil &&
               !reading.handling && reading.value && reading.state == State::ok;
    });
    return found == readings.rend() ? nullptr : &*found;
}

std::optional<AsItWas> measured_on(const Visit& visit, const std::vector<Reading>& readings,
                                   const std::string& coil) {
    const Reading* resistance = last_of(readings, Quantity::dc_resistance, coil);
    if (resistance == nullptr) return std::nullopt;
    AsItWas was{.at = visit.at,
                .resistance_20_ohm =
                    at_20_ohm({*resistance->value, resistance->standard_uncertainty.value_or(0.0)},
                              temperature_in(readings).value_or(usual_room_c))};
    if (const Reading* inductance = last_of(readings, Quantity::inductance, coil)) {
        was.inductance_h = {*inductance->value, inductance->standard_uncertainty.value_or(0.0)};
        was.inductance_frequency_hz = inductance->frequency_hz;
    }
    return was;
}

} // namespace

CoilKnowledge knowledge_from(const CoilModel& model, const AllowedRanges& allowed) {
    const CoilPrior prior = coil_prior(model, allowed);
    return {.henry_per_turn2 = unknown_of(prior, Unknown::henry_per_turn2),
            .self_capacitance_f = unknown_of(prior, Unknown::self_capacitance),
            .eddy_share = std::exp(at(prior.mean, Unknown::eddy_share)),
            .eddy_time_s = std::exp(at(prior.mean, Unknown::eddy_time)),
            .from = fmt::format("the coil model {}", model.id)};
}

CoilKnowledge knowledge_from_sister(Uncertain turns, Uncertain inductance_h, CoilKnowledge otherwise) {
    constexpr double of_the_frequency = 0.01;
    const double value = inductance_h.value / (turns.value * turns.value);
    const double relative = std::hypot(inductance_h.standard_uncertainty / inductance_h.value,
                                       2.0 * turns.standard_uncertainty / turns.value, of_the_frequency);
    otherwise.henry_per_turn2 = {value, value * relative};
    otherwise.from = "a sister coil";
    return otherwise;
}

double least_henry_per_turn2(const Job& job, double turns) {
    const double depth =
        winding_depth_m(turns, job.bobbin.height_m, {job.spool.overall_diameter_m.value, job.packing.value});
    return air_core_henry_per_turn2({job.bobbin.core, depth, job.bobbin.height_m});
}

std::optional<AsItWas> as_it_was(const History& history, const Pickup& pickup, const std::string& coil) {
    const auto visits = history.visits_of(pickup.id);
    auto newest = visits.rbegin();
    // What is wanted is the winding before the last new one, where the latest visit saw a new one.
    if (newest != visits.rend() && newest->rewound) ++newest;
    for (; newest != visits.rend(); ++newest) {
        if (!coils_judged_sound(history, *newest).contains(coil)) continue;
        if (auto was = measured_on(*newest, readings_that_hold(history, *newest), coil)) return was;
    }
    return std::nullopt;
}

} // namespace coilward
