#include "diagnosis/estimate.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

#include <boost/math/tools/toms748_solve.hpp>

namespace coilward {
namespace {

/// The prior's own ends: what spills over them is at them.
Bounds ends_of(Unknown unknown, const Distribution& distribution) {
    if (distribution.bands.empty()) return bounds_of(unknown);
    return {to_measure(unknown, distribution.bands.front().low),
            to_measure(unknown, distribution.bands.back().high)};
}

Estimate estimate_of(const Severity& severity, const FaultPosterior& posterior) {
    const Unknown unknown = *unknown_named(severity.name);
    const Spread spread = spread_of(posterior, unknown);
    const Bounds ends = ends_of(unknown, severity.distribution);
    const auto number_at = [&](double share) {
        return to_number(unknown, std::clamp(quantile(spread, share), ends.low, ends.high));
    };
    // Each is found to a few digits only, and where the spread is far narrower they must not change places.
    const double median = number_at(0.5);
    return {severity.name, median, std::min(median, number_at(0.05)), std::max(median, number_at(0.95))};
}

} // namespace

double quantile(const Spread& spread, double share) {
    double whole = 0.0;
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const SpreadPart& part : spread) {
        whole += part.weight;
        low = std::min(low, part.mean - 5.0 * part.deviation);
        high = std::max(high, part.mean + 5.0 * part.deviation);
    }
    const auto excess = [&](double measure) { return weight_below(spread, measure) - share * whole; };
    if (excess(low) >= 0.0) return low;
    if (excess(high) <= 0.0) return high;
    constexpr int bits = 20;
    std::uintmax_t most_steps = 60;
    return boost::math::tools::toms748_solve(excess, low, high,
                                             boost::math::tools::eps_tolerance<double>(bits), most_steps)
        .second;
}

std::vector<Estimate> estimates_of(const FaultPosterior& posterior) {
    std::vector<Estimate> estimates;
    if (posterior.explanations.empty()) return estimates;
    for (const Severity& severity : posterior.fault->severities)
        if (severity.estimated) estimates.push_back(estimate_of(severity, posterior));
    return estimates;
}

} // namespace coilward
