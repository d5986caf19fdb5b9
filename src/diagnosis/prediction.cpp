#include "diagnosis/prediction.h"

#include "diagnosis/read_form.h"
#include "diagnosis/resonance.h"

#include <cmath>
#include <numbers>

namespace coilward {
namespace {

template <typename SlopeOf>
void fill_slopes(Prediction& prediction, SlopeOf slope_of) {
    for (std::size_t k = 0; k < unknown_count; ++k)
        prediction.slope[k] = slope_of(static_cast<std::size_t>(parameter_of(static_cast<Unknown>(k))));
}

std::optional<Prediction> predict_resonance(const Reading& reading, const CircuitUnderTest& circuit) {
    constexpr double usual_hz = 6000.0;
    const auto resonance = resonance_near(circuit, reading.value.value_or(usual_hz));
    if (!resonance) return std::nullopt;
    Prediction prediction{.value = resonance->frequency_hz};
    fill_slopes(prediction, [&](std::size_t p) { return resonance->log_slope[p] * resonance->frequency_hz; });
    return prediction;
}

} // namespace

std::optional<Prediction> predict(const Reading& reading, Primitive primitive, const Values& values) {
    if (reading.quantity == Quantity::temperature) {
        Prediction prediction{.value = at(values, Unknown::temperature)};
        prediction.slope[static_cast<std::size_t>(Unknown::temperature)] = 1.0;
        return prediction;
    }
    const CircuitUnderTest circuit = circuit_of(primitive, values);
    if (reading.quantity == Quantity::resonance_frequency) return predict_resonance(reading, circuit);
    const auto port = port_of(reading.between);
    if (!port) return std::nullopt;
    const double frequency_hz = reading.frequency_hz.value_or(0.0);
    const auto z = impedance_with_gradient(circuit.coil, circuit.fault, *port, frequency_hz);
    const auto form = read_form(reading.quantity, reading.circuit.value_or(usual_circuit(reading.quantity)),
                                z.impedance_ohm, 2.0 * std::numbers::pi * frequency_hz);
    if (!form) return std::nullopt;
    Prediction prediction{.value = form->value};
    fill_slopes(prediction, [&](std::size_t p) { return (form->weight * z.derivative[p]).real(); });
    return prediction;
}

} // namespace coilward
