#include "metrology/conformity.h"

#include "metrology/normal.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

#include <boost/math/special_functions/erf.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

void check(double measured, double standard_uncertainty, double low, double high) {
    if (!std::isfinite(measured))
        throw std::invalid_argument(
            fmt::format("a measured value of {} has no standing; give a number", measured));
    if (!(standard_uncertainty >= 0.0) || !std::isfinite(standard_uncertainty))
        throw std::invalid_argument(
            fmt::format("a standard uncertainty of {} is impossible; give 0 or more", standard_uncertainty));
    if (!(low <= high))
        throw std::invalid_argument(
            fmt::format("limits from {} to {} hold nothing; give the lower first", low, high));
}

} // namespace

std::string_view name(Standing standing) {
    switch (standing) {
    case Standing::below:
        return "below";
    case Standing::within:
        return "within";
    case Standing::above:
        return "above";
    case Standing::undecided:
        return "undecided";
    }
    return "";
}

std::string_view name(Decision decision) {
    switch (decision) {
    case Decision::pass:
        return "pass";
    case Decision::fail:
        return "fail";
    case Decision::measure_better:
        return "measure better";
    }
    return "";
}

StandingProbabilities standing_probabilities(double measured, double standard_uncertainty, double low,
                                             double high) {
    check(measured, standard_uncertainty, low, high);
    if (standard_uncertainty == 0.0) {
        if (measured < low) return {.below = 1.0};
        if (measured > high) return {.above = 1.0};
        return {.within = 1.0};
    }
    const double to_low = (low - measured) / standard_uncertainty;
    const double to_high = (high - measured) / standard_uncertainty;
    StandingProbabilities p{.below = normal_cumulative(to_low), .above = normal_cumulative(-to_high)};
    // Subtract the smaller tails, so that nothing is lost when the value lies far outside.
    if (to_low > 0.0)
        p.within = normal_cumulative(-to_low) - p.above;
    else if (to_high < 0.0)
        p.within = normal_cumulative(to_high) - p.below;
    else
        p.within = 1.0 - p.below - p.above;
    return p;
}

double probability_within(double measured, double standard_uncertainty, double low, double high) {
    return standing_probabilities(measured, standard_uncertainty, low, high).within;
}

Standing standing(double measured, double standard_uncertainty, double low, double high,
                  double decision_probability) {
    if (!(decision_probability > 0.5 && decision_probability <= 1.0))
        throw std::invalid_argument(
            fmt::format("a decision probability of {} decides nothing; give one above 0.5 "
                        "and at most 1",
                        decision_probability));
    const auto p = standing_probabilities(measured, standard_uncertainty, low, high);
    if (p.within >= decision_probability) return Standing::within;
    if (p.below >= decision_probability) return Standing::below;
    if (p.above >= decision_probability) return Standing::above;
    return Standing::undecided;
}

double guard_band(double standard_uncertainty, double conformance_probability) {
    check(0.0, standard_uncertainty, 0.0, 0.0);
    if (!(conformance_probability >= 0.5 && conformance_probability < 1.0))
        throw std::invalid_argument(
            fmt::format("a conformance probability of {} has no guard band; give one from 0.5 "
                        "to below 1",
                        conformance_probability));
    const double z = std::numbers::sqrt2 * boost::math::erfc_inv(2.0 * (1.0 - conformance_probability));
    return z * standard_uncertainty;
}

Conformity conformity(double measured, double standard_uncertainty, double low, double high,
                      double conformance_probability) {
    Conformity result;
    result.probability_within = probability_within(measured, standard_uncertainty, low, high);
    result.guard_band = guard_band(standard_uncertainty, conformance_probability);
    result.accept_from = low + result.guard_band;
    result.accept_to = high - result.guard_band;
    if (measured >= result.accept_from && measured <= result.accept_to)
        result.decision = Decision::pass;
    else if (measured < low - result.guard_band || measured > high + result.guard_band)
        result.decision = Decision::fail;
    return result;
}

} // namespace coilward
