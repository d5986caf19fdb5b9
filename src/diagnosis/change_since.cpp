#include "diagnosis/change_since.h"

#include "diagnosis/model_error.h"
#include "diagnosis/prediction.h"
#include "units/engineering.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace coilward {
namespace {

const Reading* same_question_in(const std::vector<Reading>& readings, const Reading& asked) {
    const auto found = std::ranges::find_if(
        readings, [&](const Reading& reading) { return reading.value && same_question(reading, asked); });
    return found == readings.end() ? nullptr : &*found;
}

std::string day_of(const std::string& at) {
    return at.substr(0, 10); // the date of RFC 3339
}

std::string words_for(const Change& change, const Reading& reading) {
    constexpr double beyond = 2.0; // standard uncertainties: about 5 in 100 sound readings are beyond
    const auto shown = [&](double value) { return engineering(value, unit(reading.quantity)); };
    const std::string then = shown(change.then);
    const std::string brought = shown(change.then_at_now);
    const double times = std::abs(change.deviations());
    return fmt::format("; on {} it read {}{}: {} the uncertainty of both ({:.1f} standard uncertainties)",
                       day_of(change.at), then,
                       brought == then ? std::string() : fmt::format(", {} at today's temperature", brought),
                       times > beyond ? "changed beyond" : "no change beyond", times);
}

} // namespace

std::optional<Change> change_since(const HealthyVisit& visit, const ReadingAt& now, const CoilPrior& prior,
                                   const Rules& rules) {
    const Reading& reading = now.reading;
    if (!reading.value || reading.quantity == Quantity::temperature) return std::nullopt;
    const Reading* then = same_question_in(visit.as_read.readings, reading);
    if (!then) return std::nullopt;
    const CoilTemperature warm_then = coil_temperature(visit.evidence, prior);
    Values values = prior.mean;
    at(values, Unknown::temperature) = warm_then.degrees_c;
    const auto predicted = predict(*then, Primitive::none, values);
    if (!predicted) return std::nullopt;
    const double per_kelvin = predicted->slope[static_cast<std::size_t>(Unknown::temperature)];
    const double warmer_k = now.temperature.degrees_c - warm_then.degrees_c;
    const double of_the_readings = std::hypot(uncertainty_of(reading, rules), uncertainty_of(*then, rules));
    const double of_the_temperatures =
        per_kelvin * std::hypot(now.temperature.deviation_k, warm_then.deviation_k);
    return Change{.at = visit.as_read.at,
                  .then = *then->value,
                  .then_at_now = *then->value + per_kelvin * warmer_k,
                  .now = *reading.value,
                  .standard_uncertainty = std::hypot(of_the_readings, of_the_temperatures)};
}

void add_changes(std::vector<Reason>& reasons, const std::vector<Reading>& readings,
                 const CoilTemperature& now, const OwnHistory& history, const Rules& rules) {
    if (history.visits.empty()) return;
    for (Reason& reason : reasons) {
        const auto said = std::ranges::find(readings, reason.reading, describe);
        if (said == readings.end()) continue;
        std::optional<Change> since_the_latest;
        for (auto visit = history.visits.rbegin(); visit != history.visits.rend() && !since_the_latest;
             ++visit)
            since_the_latest = change_since(*visit, {*said, now}, history.prior, rules);
        if (since_the_latest) reason.says += words_for(*since_the_latest, *said);
    }
}

} // namespace coilward
