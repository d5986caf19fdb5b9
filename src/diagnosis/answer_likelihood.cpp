#include "diagnosis/answer_likelihood.h"

#include "metrology/normal.h"

#include <cmath>

namespace coilward {
namespace {

// Chance that a meter shows over range, or not, for a reason that has nothing to do with the coil: a lead
// off, a range set by hand. Common practice, no published source.
constexpr double blunder = 0.004;

Judgement judge_number(double value, double deviation, double predicted) {
    return {.cost = -log_normal_density(value, predicted, deviation),
            .slope = (predicted - value) / (deviation * deviation),
            .curvature = 1.0 / (deviation * deviation)};
}

/// z = ±ln(|Z| / limit) / deviation.
Judgement judge_state(const Answer& answer, double log_magnitude) {
    const double side = answer.state == State::over_range ? 1.0 : -1.0;
    const double z = side * (log_magnitude - std::log(answer.limit_ohm)) / answer.limit_log_deviation;
    const double chance = blunder + (1.0 - 2.0 * blunder) * normal_cumulative(z);
    const double rate =
        side * (1.0 - 2.0 * blunder) * normal_density(z) / (chance * answer.limit_log_deviation);
    return {.cost = -std::log(chance), .slope = -rate, .curvature = rate * rate};
}

} // namespace

ReadForm looked_at(const Answer& answer, std::complex<double> impedance_ohm, double angular_frequency) {
    if (answer.state != State::ok) return {std::log(std::abs(impedance_ohm)), 1.0 / impedance_ohm};
    return *read_form(answer.quantity, answer.circuit, impedance_ohm, angular_frequency);
}

Judgement judge(const Answer& answer, double predicted, double model_variance) {
    if (answer.state != State::ok) return judge_state(answer, predicted);
    return judge_number(answer.value, std::sqrt(answer.deviation * answer.deviation + model_variance),
                        predicted);
}

Judgement judge(const PlainAnswer& answer, double predicted) {
    return judge_number(answer.value, answer.deviation, predicted);
}

} // namespace coilward
