#include "diagnosis/kick.h"

#include <cmath>

namespace coilward {

double chance_of(Polarity polarity, const PolarityChances& chances) {
    switch (polarity) {
    case Polarity::as_expected:
        return chances.as_expected;
    case Polarity::reversed:
        return chances.reversed;
    case Polarity::none:
        break;
    }
    return chances.none;
}

PolarityChances kick_chances(const Fault& fault, const Values& values) {
    if (!fault.kick_read_across_ohm) return fault.polarity;
    const double series_ohm = to_number(Unknown::series_resistance, at(values, Unknown::series_resistance));
    const double seen = *fault.kick_read_across_ohm / (*fault.kick_read_across_ohm + series_ohm);
    const double as_expected = seen * fault.polarity.as_expected;
    const double reversed = seen * fault.polarity.reversed;
    return {as_expected, reversed, 1.0 - as_expected - reversed};
}

PolarityChances kick_chances(const FaultPosterior& posterior) {
    if (!posterior.fault->kick_read_across_ohm || posterior.explanations.empty())
        return posterior.fault->polarity;
    PolarityChances sum{0.0, 0.0, 0.0};
    double whole = 0.0;
    for (const Explanation& explanation : posterior.explanations) {
        const PolarityChances chances =
            kick_chances(*posterior.fault, values_at(explanation.component, explanation.mode.unknowns));
        sum.as_expected += explanation.weight * chances.as_expected;
        sum.reversed += explanation.weight * chances.reversed;
        sum.none += explanation.weight * chances.none;
        whole += explanation.weight;
    }
    return {sum.as_expected / whole, sum.reversed / whole, sum.none / whole};
}

double greatest_chance_of_kick(Polarity polarity, const Fault& fault) {
    if (fault.kick_read_across_ohm && polarity == Polarity::none) return 1.0;
    return chance_of(polarity, fault.polarity);
}

} // namespace coilward
