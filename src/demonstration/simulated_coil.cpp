#include "demonstration/simulated_coil.h"

#include "diagnosis/read_form.h"

#include <cmath>
#include <numbers>
#include <utility>

namespace coilward {

SimulatedCoil coil_seen_by(const MeterError& error, const Coil& coil, const FaultElement& fault,
                           std::shared_ptr<const std::atomic<CoilPort>> probes) {
    return [error, coil, fault, probes = std::move(probes)](Quantity quantity, Circuit circuit,
                                                            double frequency_hz) -> std::optional<double> {
        if (quantity == Quantity::temperature) return coil.temperature_c;
        if (quantity == Quantity::dc_voltage) return 0.0;
        const auto z = error.gain * impedance(coil, fault, *probes, frequency_hz);
        if (std::abs(z) > error.highest_ohm) return std::nullopt;
        const auto form = read_form(quantity, circuit, z, 2.0 * std::numbers::pi * frequency_hz);
        return form ? std::optional(form->value) : std::nullopt;
    };
}

} // namespace coilward
