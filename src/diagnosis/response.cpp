#include "diagnosis/response.h"

#include "diagnosis/evidence.h"
#include "diagnosis/kick.h"
#include "diagnosis/log_sum.h"
#include "diagnosis/mutual_information.h"
#include "diagnosis/prediction.h"
#include "metrology/normal.h"
#include "wire/copper.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace coilward {
namespace {

// What a coil in the hand, or a hair dryer on its low setting, comes to: ten kelvin, and twice or half as
// much one time in four. Common practice, no published source.
constexpr double usual_warming_k = 10.0;
constexpr double log_deviation_of_warming = 0.6;

// Less could be the room's own warmth, more would melt the wax.
constexpr double least_rise = 0.005; // 1.3 K of copper
constexpr double greatest_rise = 0.2;

// A finger's warmth through a stick; copper moves by 0.393 % a kelvin.
constexpr double warmth_of_pressing = 0.004;

constexpr double deviations_that_count = 3.0;

// One lifted reading in a hundred is a blunder, anywhere as far as the reading itself.
constexpr double chance_of_blunder = 0.01;

bool is_number(const Reading& reading) {
    return reading.value && reading.state == State::ok;
}

/// The state of a meter that shows no number.
bool is_out_of_range(const Reading& reading) {
    return reading.state == State::over_range || reading.state == State::under_range;
}

bool is_judged(const Reading& handled) {
    if (handled.between != Between::leads) return false;
    return handled.handling == Handling::lifted || handled.quantity == Quantity::dc_resistance;
}

/// Why a handled reading says nothing; empty where it does.
std::string why_unusable(const Reading& handled, const Reading* at_rest) {
    if (!is_judged(handled))
        return "a handled coil is judged across its leads, a warm or pressed one by its DC resistance";
    if (!is_measurable(handled)) return "its numbers are beyond what any meter shows";
    if (!at_rest || !is_measurable(*at_rest))
        return "it needs the same reading of the coil at rest beside it";
    if (at_rest->state == State::unstable) return "the coil's reading wandered at rest already";
    if (handled.handling == Handling::lifted && !(is_number(handled) && is_number(*at_rest)))
        return "what the controls did shows only between two numbers";
    return {};
}

double deviation_of(const Reading& reading, const Rules& rules) {
    return is_number(reading) ? uncertainty_of(reading, rules) : 0.0;
}

/// The last one that asks the same of the coil at rest.
const Reading* at_rest_beside(const Reading& handled, const std::vector<Reading>& at_rest) {
    Reading question = handled;
    question.handling.reset();
    const auto found = std::find_if(at_rest.rbegin(), at_rest.rend(),
                                    [&](const Reading& other) { return same_question(other, question); });
    return found == at_rest.rend() ? nullptr : &*found;
}

double relative_deviation(const Response& response) {
    return std::hypot(response.handled_deviation, response.at_rest_deviation) /
           std::abs(*response.at_rest.value);
}

double rise_of(const Response& response) {
    return *response.handled.value / *response.at_rest.value - 1.0;
}

double least_rise_beside(double relative_deviation) {
    return std::max(least_rise, deviations_that_count * relative_deviation);
}

/// How the DC resistance follows the temperature, as a part of itself per kelvin.
double per_kelvin(Primitive primitive, const Values& values) {
    const auto shown = predict({.quantity = Quantity::dc_resistance}, primitive, values);
    return shown ? shown->slope[static_cast<std::size_t>(Unknown::temperature)] / shown->value : 1.0;
}

/// Part of the DC resistance that follows copper's temperature: 1 for a sound coil, little for one whose wire
/// ends in a gap of megaohms.
double copper_share(const Fault& fault, const Explanation& explanation) {
    const Values values = values_at(explanation.component, explanation.mode.unknowns);
    return std::clamp(per_kelvin(fault.primitive, values) / per_kelvin(Primitive::none, values), 1e-9, 1.0);
}

/// Chance that a rise by so many kelvin as are usual looks like copper's.
double chance_of_copper(double share, double relative_deviation) {
    const double middle = std::log(share * copper_alpha_20_per_kelvin * usual_warming_k);
    const auto below = [&](double rise) {
        return normal_cumulative((std::log(rise) - middle) / log_deviation_of_warming);
    };
    return std::max(0.0, below(greatest_rise) - below(least_rise_beside(relative_deviation)));
}

/// Chance that the coil moves oddly if the explanation holds.
double chance_of_moving(Handling handling, const Fault& fault, const Explanation* explanation,
                        bool out_of_range, double relative_deviation) {
    if (handling == Handling::pressed) return fault.response.pressed;
    if (out_of_range) return fault.response.warmed; // no copper to be seen
    const double share = explanation ? copper_share(fault, *explanation) : 1.0;
    return 1.0 - (1.0 - fault.response.warmed) * chance_of_copper(share, relative_deviation);
}

double log_of_chance(double chance) {
    return std::log(std::max(chance, 1e-6));
}

/// How far a reading is to move when the load is taken off, and how well that is known.
struct Step {
    double mean = 0.0;
    double deviation = 0.0;
};

Step step_without_load(const Reading& question, const Fault& fault, const Explanation& explanation) {
    if (fault.primitive != Primitive::load) return {};
    const Values values = values_at(explanation.component, explanation.mode.unknowns);
    const auto with = predict(question, Primitive::load, values);
    const auto without = predict(question, Primitive::none, values);
    if (!with || !without) return {};
    Vector slope(explanation.mode.unknowns.size());
    for (Eigen::Index k = 0; k < slope.size(); ++k) {
        const auto unknown =
            static_cast<std::size_t>(unknown_at(explanation.component, static_cast<std::size_t>(k)));
        slope[k] = without->slope[unknown] - with->slope[unknown];
    }
    return {without->value - with->value,
            std::sqrt(std::max(0.0, slope.dot(covariance_of(explanation.mode) * slope)))};
}

Reading question_of(const Response& response) {
    Reading question = response.at_rest;
    question.value.reset();
    return question;
}

double log_density_of_lifting(const Response& response, const Fault& fault, const Explanation* explanation) {
    const double moved = *response.handled.value - *response.at_rest.value;
    const double broad = std::hypot(*response.at_rest.value, response.at_rest_deviation);
    const double anywhere = log_normal_density(moved, 0.0, broad);
    if (!explanation) return anywhere;
    const Step step = step_without_load(question_of(response), fault, *explanation);
    const double meters = std::hypot(response.handled_deviation, response.at_rest_deviation);
    return log_sum(std::log(1.0 - chance_of_blunder) +
                       log_normal_density(moved, step.mean, std::hypot(step.deviation, meters)),
                   std::log(chance_of_blunder) + anywhere);
}

/// A fault's chance of moving oddly, over its explanations.
double chance_of_moving(Handling handling, const FaultPosterior& p, bool out_of_range,
                        double relative_deviation) {
    double sum = 0.0;
    double weights = 0.0;
    for (const Explanation& e : p.explanations) {
        sum += e.weight * chance_of_moving(handling, *p.fault, &e, out_of_range, relative_deviation);
        weights += e.weight;
    }
    return weights > 0.0 ? sum / weights
                         : chance_of_moving(handling, *p.fault, nullptr, out_of_range, relative_deviation);
}

/// ln of what the handled readings and the compass make of an explanation.
double log_factor(const ReadingsByUse& readings, const Fault& fault, const Explanation* explanation) {
    double sum = 0.0;
    for (const Response& response : readings.responses)
        sum += log_likelihood(response, fault, explanation);
    for (const Polarity pole : readings.magnet_poles)
        sum += log_chance_of_pole(pole, fault);
    return sum;
}

/// The greatest of those that have any weight: without it all of them could vanish in a double.
double greatest_log_factor(const ReadingsByUse& readings, const Posterior& posterior) {
    double greatest = never;
    for (const FaultPosterior& p : posterior) {
        if (p.explanations.empty() && p.probability > 0.0)
            greatest = std::max(greatest, log_factor(readings, *p.fault, nullptr));
        for (const Explanation& e : p.explanations)
            if (e.weight > 0.0) greatest = std::max(greatest, log_factor(readings, *p.fault, &e));
    }
    return greatest;
}

/// Multiplies a fault's weights by what each of its explanations makes of the evidence.
void multiply(FaultPosterior& p, const ReadingsByUse& readings, double greatest) {
    double before = 0.0;
    double after = 0.0;
    for (Explanation& e : p.explanations) {
        before += e.weight;
        e.weight *= std::exp(log_factor(readings, *p.fault, &e) - greatest);
        after += e.weight;
    }
    const double factor =
        before > 0.0 ? after / before : std::exp(log_factor(readings, *p.fault, nullptr) - greatest);
    p.probability *= factor;
    p.log_weight += std::log(factor) + greatest;
}

void normalise(Posterior& posterior) {
    double whole = 0.0;
    for (const FaultPosterior& p : posterior)
        whole += p.probability;
    for (FaultPosterior& p : posterior) {
        p.probability /= whole;
        for (Explanation& e : p.explanations)
            e.weight /= whole;
        std::ranges::sort(p.explanations, std::greater{}, &Explanation::weight);
    }
    std::ranges::stable_sort(posterior, std::greater{}, &FaultPosterior::probability);
}

} // namespace

ReadingsByUse by_use(const std::vector<Reading>& readings, const Rules& rules) {
    ReadingsByUse sorted;
    for (const Reading& reading : readings) {
        if (reading.quantity == Quantity::magnet_pole)
            sorted.magnet_poles.push_back(*reading.polarity);
        else if (!reading.handling)
            sorted.at_rest.push_back(reading);
    }
    for (const Reading& reading : readings) {
        if (!reading.handling || reading.quantity == Quantity::magnet_pole) continue;
        const Reading* at_rest = at_rest_beside(reading, sorted.at_rest);
        if (const std::string why = why_unusable(reading, at_rest); !why.empty())
            sorted.notes.push_back(fmt::format("{}: not used, {}", describe(reading), why));
        else
            sorted.responses.push_back(
                {reading, *at_rest, deviation_of(reading, rules), deviation_of(*at_rest, rules)});
    }
    return sorted;
}

bool moved_oddly(const Response& response) {
    if (response.handled.state != response.at_rest.state) return true;
    if (!is_number(response.handled)) return false; // out of range, both times
    const double rise = rise_of(response);
    const double uncertainty = deviations_that_count * relative_deviation(response);
    if (response.handled.handling == Handling::pressed)
        return std::abs(rise) > uncertainty + warmth_of_pressing;
    return rise < least_rise_beside(relative_deviation(response)) || rise > greatest_rise;
}

double step_when_lifted(const Response& response, const Fault& fault, const Explanation& explanation) {
    return step_without_load(question_of(response), fault, explanation).mean;
}

double kelvin_of_copper(const Response& response) {
    return rise_of(response) / copper_alpha_20_per_kelvin;
}

double log_likelihood(const Response& response, const Fault& fault, const Explanation* explanation) {
    const Handling handling = *response.handled.handling;
    if (handling == Handling::lifted) return log_density_of_lifting(response, fault, explanation);
    const bool out_of_range = is_out_of_range(response.at_rest);
    const double deviation = out_of_range ? 0.0 : relative_deviation(response);
    const double moving = chance_of_moving(handling, fault, explanation, out_of_range, deviation);
    return log_of_chance(moved_oddly(response) ? moving : 1.0 - moving);
}

double log_chance_of_pole(Polarity pole, const Fault& fault) {
    return log_of_chance(chance_of(pole, fault.magnet_pole));
}

void weigh(Posterior& posterior, const ReadingsByUse& readings) {
    if (readings.responses.empty() && readings.magnet_poles.empty()) return;
    const double greatest = greatest_log_factor(readings, posterior);
    for (FaultPosterior& p : posterior)
        multiply(p, readings, greatest);
    normalise(posterior);
}

double response_gain_bits(const Posterior& posterior, Handling handling, const Reading& at_rest,
                          double deviation) {
    const bool out_of_range = is_out_of_range(at_rest);
    const double relative = out_of_range ? 0.0 : std::numbers::sqrt2 * deviation / std::abs(*at_rest.value);
    return mutual_information_bits<2>(posterior, [&](const FaultPosterior& p) {
        const double moving = chance_of_moving(handling, p, out_of_range, relative);
        return std::array{moving, 1.0 - moving};
    });
}

} // namespace coilward
