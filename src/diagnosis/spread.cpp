#include "diagnosis/spread.h"

#include "diagnosis/bordered.h"
#include "metrology/normal.h"

#include <cmath>

namespace coilward {
namespace {

SpreadPart part_of(const Explanation& explanation, Unknown unknown) {
    const Component& component = explanation.component;
    for (std::size_t s = 0; s < component.severity_count; ++s) {
        if (component.severities[s].unknown != unknown) continue;
        const auto k = static_cast<Eigen::Index>(coil_unknown_count + s);
        const BorderedCholesky factored(explanation.mode.information);
        return {explanation.weight, explanation.mode.unknowns[k],
                std::sqrt(factored.severity_variances()[static_cast<Eigen::Index>(s)])};
    }
    return {explanation.weight, at(component.fixed, unknown), 0.0};
}

} // namespace

Spread spread_of(const FaultPosterior& posterior, Unknown unknown) {
    Spread spread;
    for (const Explanation& explanation : posterior.explanations)
        spread.push_back(part_of(explanation, unknown));
    return spread;
}

double weight_below(const Spread& spread, double measure) {
    constexpr double all_of_it = 5.0; // deviations: but for 3e-7
    double sum = 0.0;
    for (const SpreadPart& part : spread) {
        const double distance = measure - part.mean;
        if (distance >= all_of_it * part.deviation)
            sum += part.weight;
        else if (distance > -all_of_it * part.deviation)
            sum += part.weight * normal_cumulative(distance / part.deviation);
    }
    return sum;
}

} // namespace coilward
