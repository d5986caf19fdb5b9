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

/// Resistances, magnitudes and capacitances reach over many decades, and their logarithms are far nearer to
/// linear in the unknowns' logarithms than they are themselves, so that a search begun decades away arrives.
/// Where the uncertainty is a small part of the value, a normal distribution of the logarithm is that of the
/// value.
bool is_looked_at_by_ratio(const Answer& answer, double predicted) {
    constexpr double greatest_relative_deviation = 0.1;
    switch (answer.quantity) {
    case Quantity::dc_resistance:
    case Quantity::insulation_resistance:
    case Quantity::ac_resistance:
    case Quantity::impedance_magnitude:
    case Quantity::capacitance:
        return predicted * answer.value > 0.0 &&
               answer.deviation < greatest_relative_deviation * std::abs(answer.value);
    default:
        return false;
    }
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

LookedAt looked_at(const Answer& answer, std::complex<double> impedance_ohm, double angular_frequency) {
    if (answer.state != State::ok)
        return {{std::log(std::abs(impedance_ohm)), 1.0 / impedance_ohm}, Scale::logarithm};
    ReadForm form = *read_form(answer.quantity, answer.circuit, impedance_ohm, angular_frequency);
    if (answer.is_signed && impedance_ohm.imag() < 0.0) form = {-form.value, -form.weight};
    if (!is_looked_at_by_ratio(answer, form.value)) return {form, Scale::itself};
    return {{std::log(std::abs(form.value)), form.weight / form.value}, Scale::logarithm};
}

Judgement judge(const Answer& answer, const LookedAt& predicted, double model_variance) {
    if (answer.state != State::ok) return judge_state(answer, predicted.form.value);
    const bool by_ratio = predicted.scale == Scale::logarithm;
    const double value = by_ratio ? std::log(std::abs(answer.value)) : answer.value;
    const double deviation = by_ratio ? answer.deviation / std::abs(answer.value) : answer.deviation;
    Judgement judgement =
        judge_number(value, std::sqrt(deviation * deviation + model_variance), predicted.form.value);
    if (by_ratio) judgement.cost += value; // the density is still that of the number itself
    return judgement;
}

Judgement judge(const PlainAnswer& answer, double predicted) {
    return judge_number(answer.value, answer.deviation, predicted);
}

} // namespace coilward
