#include "diagnosis/place_in_winding.h"

#include "diagnosis/spread.h"

#include <algorithm>

namespace coilward {
namespace {

constexpr double unwindable_share = 0.02;

/// The severity that is a place, if the fault has one.
std::optional<Unknown> place_unknown(const Fault& fault) {
    for (const Unknown place : {Unknown::break_position, Unknown::leak_position})
        if (std::ranges::any_of(fault.severities, [&](const Severity& severity) {
                return unknown_named(severity.name) == place;
            }))
            return place;
    return std::nullopt;
}

} // namespace

std::optional<PlaceInWinding> place_in_winding(const FaultPosterior& posterior) {
    const auto unknown = place_unknown(*posterior.fault);
    if (!unknown || posterior.explanations.empty()) return std::nullopt;
    PlaceInWinding place;
    Spread within;
    double whole = 0.0;
    for (const SpreadPart& part : spread_of(posterior, *unknown)) {
        whole += part.weight;
        if (part.deviation > 0.0)
            within.push_back(part);
        else
            (part.mean < 0.5 ? place.at_start : place.at_finish) += part.weight;
    }
    // What a normal distribution spills over an end of the winding is in its last part.
    const double inside = whole - place.at_start - place.at_finish;
    const auto below = [&](double position) {
        return position <= 0.0 ? 0.0 : position >= 1.0 ? inside : weight_below(within, position);
    };
    const auto count = static_cast<double>(place.parts.size());
    for (std::size_t i = 0; i < place.parts.size(); ++i)
        place.parts[i] =
            (below((static_cast<double>(i) + 1.0) / count) - below(static_cast<double>(i) / count)) / whole;
    place.at_start /= whole;
    place.at_finish /= whole;
    place.mendable_outside = place.at_finish + (inside - below(1.0 - unwindable_share)) / whole;
    return place;
}

} // namespace coilward
