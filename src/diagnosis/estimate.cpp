#include "diagnosis/estimate.h"

#include "metrology/normal.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <Eigen/Cholesky>

namespace coilward {
namespace {

/// One explanation's part of a severity's distribution: normal, or a point where the deviation is 0.
struct Part {
    double weight = 0.0;
    double mean = 0.0;
    double deviation = 0.0;
};

Part part_of(const Explanation& explanation, Unknown unknown) {
    const Component& component = explanation.component;
    for (std::size_t s = 0; s < component.severity_count; ++s) {
        if (component.severities[s].unknown != unknown) continue;
        const auto k = static_cast<Eigen::Index>(coil_unknown_count + s);
        const auto size = explanation.mode.unknowns.size();
        const Vector column = explanation.mode.information.llt().solve(Vector::Unit(size, k));
        return {explanation.weight, explanation.mode.unknowns[k], std::sqrt(column[k])};
    }
    return {explanation.weight, at(component.fixed, unknown), 0.0};
}

double cumulative(const std::vector<Part>& parts, double measure) {
    double sum = 0.0;
    for (const Part& part : parts) {
        if (part.deviation > 0.0)
            sum += part.weight * normal_cumulative((measure - part.mean) / part.deviation);
        else if (part.mean <= measure)
            sum += part.weight;
    }
    return sum;
}

/// The measure below which `share` of all weight lies, by bisection.
double quantile(const std::vector<Part>& parts, double share) {
    double whole = 0.0;
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const Part& part : parts) {
        whole += part.weight;
        low = std::min(low, part.mean - 5.0 * part.deviation);
        high = std::max(high, part.mean + 5.0 * part.deviation);
    }
    for (int i = 0; i < 50; ++i) {
        const double middle = 0.5 * (low + high);
        (cumulative(parts, middle) < share * whole ? low : high) = middle;
    }
    return high;
}

/// The prior's own ends: what spills over them is at them.
Bounds ends_of(Unknown unknown, const Distribution& distribution) {
    if (distribution.bands.empty()) return bounds_of(unknown);
    return {to_measure(unknown, distribution.bands.front().low),
            to_measure(unknown, distribution.bands.back().high)};
}

Estimate estimate_of(const Severity& severity, const FaultPosterior& posterior) {
    const Unknown unknown = *unknown_named(severity.name);
    std::vector<Part> parts;
    for (const Explanation& explanation : posterior.explanations)
        parts.push_back(part_of(explanation, unknown));
    const Bounds ends = ends_of(unknown, severity.distribution);
    const auto number_at = [&](double share) {
        return to_number(unknown, std::clamp(quantile(parts, share), ends.low, ends.high));
    };
    return {severity.name, number_at(0.5), number_at(0.05), number_at(0.95)};
}

} // namespace

std::vector<Estimate> estimates_of(const FaultPosterior& posterior) {
    std::vector<Estimate> estimates;
    if (posterior.explanations.empty()) return estimates;
    for (const Severity& severity : posterior.fault->severities)
        if (severity.estimated) estimates.push_back(estimate_of(severity, posterior));
    return estimates;
}

} // namespace coilward
