#include "diagnosis/unlisted.h"

#include "diagnosis/read_form.h"
#include "metrology/normal.h"

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

} // namespace

double log_evidence_unlisted(const CoilPrior& prior, const Evidence& evidence) {
    const CircuitUnderTest healthy = circuit_of(Primitive::none, prior.mean);
    double sum = 0.0;
    for (const Probe& probe : evidence.probes) {
        const auto z = impedance(healthy.coil, healthy.fault, probe.port, probe.frequency_hz);
        for (const Answer& answer : probe.answers) {
            if (answer.state != State::ok) {
                sum += std::log(chance_of_state);
                continue;
            }
            const auto form =
                read_form(answer.quantity, answer.circuit, z, 2.0 * std::numbers::pi * probe.frequency_hz);
            // A reading of exactly 0 has no logarithm; it stands for anything below its own uncertainty.
            const double value = answer.value == 0.0 ? answer.deviation : answer.value;
            sum += log_broad_density(value, form->value);
        }
    }
    for (const PlainAnswer& answer : evidence.temperatures)
        sum += log_normal_density(answer.value, at(prior.mean, Unknown::temperature), 6.0);
    for (const PlainAnswer& answer : evidence.resonances)
        sum += log_broad_density(answer.value, 6000.0);
    sum += static_cast<double>(evidence.polarities.size()) * std::log(1.0 / 3.0);
    return sum;
}

} // namespace coilward
