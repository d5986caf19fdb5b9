#include "diagnosis/answer_likelihood.h"

#include "metrology/normal.h"

#include <cmath>
#include <numbers>

namespace coilward {
namespace {

// Chance that a meter shows over range, or not, for a reason that has nothing to do with the coil: a lead
// off, a range set by hand. Common practice, no published source.
constexpr double blunder = 0.004;

/// A normal density of a number that lies `offset` below what is predicted. Where `unit` is not 1, offset and
/// variance are in that unit; the density is still that of the number itself.
Judgement judge_number(double offset, double variance, double unit = 1.0) {
    const double curvature = 1.0 / variance;
    return {.exponent = 0.5 * offset * offset * curvature,
            .squared_width = 2.0 * std::numbers::pi * variance * unit * unit,
            .slope = offset * curvature,
            .curvature = curvature};
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
    return {.exponent = -std::log(chance), .slope = -rate, .curvature = rate * rate};
}

} // namespace

LookedAt looked_at(const Answer& answer, std::complex<double> impedance_ohm, double angular_frequency) {
    if (answer.state != State::ok)
        return {{0.5 * std::log(std::norm(impedance_ohm)), 1.0 / impedance_ohm}, Scale::logarithm};
    ReadForm form = *read_form(answer.quantity, answer.circuit, impedance_ohm, angular_frequency);
    if (answer.is_signed && impedance_ohm.imag() < 0.0) form = {-form.value, -form.weight};
    if (!is_looked_at_by_ratio(answer, form.value)) return {form, Scale::itself};
    return {{std::log(form.value / answer.value), form.weight / form.value}, Scale::logarithm};
}

Judgement judge(const Answer& answer, const LookedAt& predicted, double model_variance) {
    if (answer.state != State::ok) return judge_state(answer, predicted.form.value);
    if (predicted.scale == Scale::logarithm) {
        const double deviation = answer.deviation / answer.value;
        return judge_number(predicted.form.value, deviation * deviation + model_variance, answer.value);
    }
    return judge_number(predicted.form.value - answer.value,
                        answer.deviation * answer.deviation + model_variance);
}

Judgement judge(const PlainAnswer& answer, double predicted) {
    return judge_number(predicted - answer.value, answer.deviation * answer.deviation);
}

} // namespace coilward
