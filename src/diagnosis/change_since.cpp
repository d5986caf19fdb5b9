#include "diagnosis/change_since.h"

#include "diagnosis/model_error.h"
#include "diagnosis/prediction.h"
#include "units/engineering.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <ranges>

#include <fmt/format.h>

namespace coilward {
namespace {

/// Of the coil on one visit: its mean and one standard deviation.
struct CoilTemperature {
    double degrees_c = 0.0;
    double deviation_k = 0.0;
};

/// What the visit's evidence says, or the prior where nobody read a thermometer.
CoilTemperature temperature_on(const Evidence& visit, const CoilPrior& prior) {
    constexpr auto k = static_cast<Eigen::Index>(Unknown::temperature);
    double weights = prior.precision(k, k);
    double sum = weights * at(prior.mean, Unknown::temperature);
    for (const PlainAnswer& answer : visit.temperatures) {
        const double weight = 1.0 / (answer.deviation * answer.deviation);
        weights += weight;
        sum += weight * answer.value;
    }
    return {sum / weights, 1.0 / std::sqrt(weights)};
}

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

std::optional<Change> change_since(const std::vector<Reading>& readings, std::size_t index,
                                   const EarlierExamination& earlier, const CoilPrior& prior,
                                   const Rules& rules) {
    const Reading& now = readings[index];
    if (!now.value || now.quantity == Quantity::temperature) return std::nullopt;
    const Reading* then = same_question_in(earlier.readings, now);
    if (!then) return std::nullopt;
    const CoilTemperature warm_now = temperature_on(gather(readings, rules), prior);
    const CoilTemperature warm_then = temperature_on(gather(earlier.readings, rules), prior);
    Values values = prior.mean;
    at(values, Unknown::temperature) = warm_then.degrees_c;
    const auto predicted = predict(*then, Primitive::none, values);
    if (!predicted) return std::nullopt;
    const double per_kelvin = predicted->slope[static_cast<std::size_t>(Unknown::temperature)];
    return Change{.at = earlier.at,
                  .then = *then->value,
                  .then_at_now = *then->value + per_kelvin * (warm_now.degrees_c - warm_then.degrees_c),
                  .now = *now.value,
                  .standard_uncertainty =
                      std::hypot(std::hypot(uncertainty_of(now, rules), uncertainty_of(*then, rules)),
                                 per_kelvin * std::hypot(warm_now.deviation_k, warm_then.deviation_k))};
}

void add_changes(std::vector<Reason>& reasons, const std::vector<Reading>& readings,
                 const OwnHistory& history, const Rules& rules) {
    if (history.examinations.empty()) return;
    for (Reason& reason : reasons)
        for (std::size_t i = 0; i < readings.size(); ++i) {
            if (describe(readings[i]) != reason.reading) continue;
            for (const EarlierExamination& earlier : history.examinations | std::views::reverse) {
                const auto change = change_since(readings, i, earlier, history.prior, rules);
                if (!change) continue;
                reason.says += words_for(*change, readings[i]);
                break;
            }
            break;
        }
}

} // namespace coilward
