#include "diagnosis/unlisted.h"

#include "diagnosis/healthy_mode.h"
#include "diagnosis/log_sum.h"
#include "diagnosis/read_form.h"
#include "metrology/normal.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace coilward {
namespace {

// Own choice, no published source: half of the unlisted are within a factor of about e of healthy, the rest
// within some decades; one in twenty has the sign of a capacitor; a state in place of a number comes one time
// in five.
constexpr double near_deviation = 0.8;
constexpr double far_deviation = 5.0;
constexpr double share_far = 0.5;
constexpr double wrong_sign = 0.05;
constexpr double chance_of_state = 0.2;

double log_broad_density(double value, double healthy) {
    const double distance = std::log(std::abs(value) / std::abs(healthy));
    const double density = (1.0 - share_far) * normal_density(distance / near_deviation) / near_deviation +
                           share_far * normal_density(distance / far_deviation) / far_deviation;
    const double sign = std::signbit(value) == std::signbit(healthy) ? 1.0 - wrong_sign : wrong_sign;
    return std::log(sign * density / std::abs(value));
}

/// What a healthy coil in the middle of its prior shows at each probe.
std::complex<double> healthy_impedance(const CoilPrior& prior, const Probe& probe) {
    const CircuitUnderTest healthy = circuit_of(Primitive::none, prior.mean);
    return impedance(healthy.coil, healthy.fault, probe.port, probe.frequency_hz);
}

double log_broad_density(const Answer& answer, std::complex<double> healthy_ohm, double frequency_hz) {
    const auto form =
        read_form(answer.quantity, answer.circuit, healthy_ohm, 2.0 * std::numbers::pi * frequency_hz);
    return log_broad_density(answer, form->value);
}

} // namespace

double log_broad_density(const Answer& answer, double healthy) {
    if (answer.state != State::ok) return std::log(chance_of_state);
    // A reading of exactly 0 has no logarithm; it stands for anything below its own uncertainty.
    return log_broad_density(answer.value == 0.0 ? answer.deviation : answer.value, healthy);
}

double log_evidence_unlisted(const CoilPrior& prior, const Evidence& evidence) {
    double sum = 0.0;
    for (const Probe& probe : evidence.probes) {
        const auto healthy = healthy_impedance(prior, probe);
        for (const Answer& answer : probe.answers)
            sum += log_broad_density(answer, healthy, probe.frequency_hz);
    }
    for (const PlainAnswer& answer : evidence.temperatures)
        sum += log_normal_density(answer.value, at(prior.mean, Unknown::temperature), 6.0);
    for (const PlainAnswer& answer : evidence.resonances)
        sum += log_broad_density(answer.value, 6000.0);
    sum += static_cast<double>(evidence.polarities.size()) * std::log(1.0 / 3.0);
    return sum;
}

double log_evidence_of_one_blunder(const CoilPrior& prior, const Evidence& evidence, double hopeless) {
    double sum = never;
    double count = 0.0;
    // What all of them say together is near to what all but one say.
    const Mode together = healthy_mode(prior, evidence, never);
    const std::vector<Values> starts{
        together.abandoned ? prior.mean : values_at({.fixed = prior.mean}, together.unknowns)};
    Evidence others = evidence;
    for (std::size_t p = 0; p < evidence.probes.size(); ++p) {
        const Probe& probe = evidence.probes[p];
        const auto shown = healthy_impedance(prior, probe);
        for (std::size_t a = 0; a < probe.answers.size(); ++a) {
            auto& answers = others.probes[p].answers;
            answers.erase(answers.begin() + static_cast<std::ptrdiff_t>(a));
            const double of_the_odd_one = log_broad_density(probe.answers[a], shown, probe.frequency_hz);
            const Mode mode = healthy_mode(prior, others, hopeless - of_the_odd_one, starts);
            answers = probe.answers;
            count += 1.0;
            if (!mode.abandoned) sum = log_sum(sum, mode.log_evidence + of_the_odd_one);
        }
    }
    return sum - std::log(std::max(count, 1.0));
}

} // namespace coilward
