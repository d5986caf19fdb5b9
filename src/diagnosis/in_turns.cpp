#include "diagnosis/in_turns.h"

#include "coil/winding.h"
#include "diagnosis/bordered.h"
#include "diagnosis/estimate.h"
#include "wire/gauge.h"
#include "wire/insulation.h"

#include <algorithm>
#include <cmath>

#include <Eigen/Cholesky>

namespace coilward {
namespace {

/// A severity and the number of turns at one explanation, in their measures, and how they spread together.
struct Pair {
    double severity = 0.0;
    double log_turns = 0.0;
    double severity_variance = 0.0;
    double turns_variance = 0.0;
    double covariance = 0.0;
};

Pair pair_of(const Explanation& explanation, Unknown severity) {
    const Component& component = explanation.component;
    const auto turns = static_cast<Eigen::Index>(Unknown::turns);
    const auto size = explanation.mode.unknowns.size();
    const BorderedCholesky factored(explanation.mode.information);
    const Vector of_turns = factored.solve(Vector::Unit(size, turns));
    Pair pair{.severity = at(component.fixed, severity),
              .log_turns = explanation.mode.unknowns[turns],
              .turns_variance = of_turns[turns]};
    for (std::size_t s = 0; s < component.severity_count; ++s) {
        if (component.severities[s].unknown != severity) continue;
        const auto k = static_cast<Eigen::Index>(coil_unknown_count + s);
        pair.severity = explanation.mode.unknowns[k];
        pair.severity_variance = factored.solve(Vector::Unit(size, k))[k];
        pair.covariance = of_turns[k];
    }
    return pair;
}

/// ln(share · turns).
Spread spread_of_share(const FaultPosterior& posterior, Unknown share) {
    Spread spread;
    for (const Explanation& explanation : posterior.explanations) {
        const Pair pair = pair_of(explanation, share);
        const double variance = pair.severity_variance + pair.turns_variance + 2.0 * pair.covariance;
        spread.push_back(
            {explanation.weight, pair.severity + pair.log_turns, std::sqrt(std::max(0.0, variance))});
    }
    return spread;
}

/// Turns from the start to a position (0 to 1) or, with `backwards`, from the finish.
Spread spread_of_distance(const FaultPosterior& posterior, Unknown position, bool backwards) {
    Spread spread;
    for (const Explanation& explanation : posterior.explanations) {
        const Pair pair = pair_of(explanation, position);
        const double turns = std::exp(pair.log_turns);
        const double share = std::clamp(backwards ? 1.0 - pair.severity : pair.severity, 0.0, 1.0);
        const double sign = backwards ? -1.0 : 1.0;
        const double variance = turns * turns *
                                (pair.severity_variance + share * share * pair.turns_variance +
                                 2.0 * sign * share * pair.covariance);
        spread.push_back({explanation.weight, share * turns, std::sqrt(std::max(0.0, variance))});
    }
    return spread;
}

Counted counted(const Spread& spread) {
    return {quantile(spread, 0.5), quantile(spread, 0.05), quantile(spread, 0.95)};
}

Counted of_logarithms(const Counted& logs) {
    return {std::exp(logs.value), std::exp(logs.low), std::exp(logs.high)};
}

/// Nothing below the lead itself or beyond the other one.
Counted within_coil(Counted distance, double most_turns) {
    for (double* turns : {&distance.value, &distance.low, &distance.high})
        *turns = std::clamp(*turns, 0.0, most_turns);
    return distance;
}

/// The wire over its enamel: the middle between the least and the most that a single build may have. For
/// orientation only, which layers are: thinner than 40 AWG the figures are unverified.
std::optional<double> overall_diameter_m(const CoilModel& model) {
    if (!model.wire.awg) return std::nullopt;
    const auto overall = awg_overall_diameter(*model.wire.awg, Build::single);
    if (!overall || !overall->maximum_m) return std::nullopt;
    const double bare = awg_diameter_m(*model.wire.awg, AwgDiameter::nominal);
    const double least = bare + overall->minimum_increase_m.value_or(0.0);
    return 0.5 * (least + *overall->maximum_m);
}

std::optional<Counted> counted_in_layers(const Counted& turns, const CoilModel& model) {
    const auto overall_m = overall_diameter_m(model);
    if (!overall_m || !model.bobbin.wound_height_m) return std::nullopt;
    const auto layers = [&](double count) {
        return layers_of(count, *model.bobbin.wound_height_m, *overall_m);
    };
    return Counted{layers(turns.value), layers(turns.low), layers(turns.high)};
}

bool has(const FaultPosterior& posterior, Unknown severity) {
    return std::ranges::any_of(posterior.fault->severities,
                               [&](const Severity& each) { return unknown_named(each.name) == severity; });
}

} // namespace

InTurns in_turns(const FaultPosterior& posterior, const CoilModel& model) {
    InTurns result;
    if (!model.turns || posterior.explanations.empty()) return result;
    if (has(posterior, Unknown::shorted_fraction)) {
        result.shorted = of_logarithms(counted(spread_of_share(posterior, Unknown::shorted_fraction)));
        result.shorted_layers = counted_in_layers(*result.shorted, model);
    }
    for (const Unknown place : {Unknown::break_position, Unknown::leak_position}) {
        if (!has(posterior, place)) continue;
        result.from_start =
            within_coil(counted(spread_of_distance(posterior, place, false)), model.turns->high);
        result.from_finish =
            within_coil(counted(spread_of_distance(posterior, place, true)), model.turns->high);
    }
    return result;
}

} // namespace coilward
