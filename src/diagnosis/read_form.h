#pragma once

#include "coil/impedance.h"
#include "reading/quantity.h"

#include <array>
#include <complex>
#include <optional>

namespace coilward {

/// The number that a meter shows for an impedance, and how it moves with it: d(value) = Re(weight · dZ).
struct ReadForm {
    double value = 0.0;          ///< SI unit of the quantity
    std::complex<double> weight; ///< that unit per ohm
};

/// How that number moves with each parameter of the impedance, per unit of the parameter's measure.
using ParameterSlopes = std::array<double, static_cast<std::size_t>(Parameter::count)>;

/// By each parameter of the circuit.
inline ParameterSlopes slopes_of(const ReadForm& form, const ImpedanceWithGradient& z) {
    ParameterSlopes slopes;
    for (std::size_t p = 0; p < slopes.size(); ++p)
        slopes[p] = form.weight.real() * z.derivative[p].real() - form.weight.imag() * z.derivative[p].imag();
    return slopes;
}

/// How `quantity`, split in `circuit`, follows from an impedance at an angular frequency. The forms are those
/// of impedance-measurement handbooks: series Z = R + jX, parallel 1/Z = G + jB; Q = |X|/R, D = R/|X|, C =
/// −1/(ωX) in series and B/ω in parallel, L = X/ω and −1/(ωB). Nothing for a quantity that is no function of
/// one impedance (temperature, voltage, polarity, resonance frequency). Radian per second, and radian for a
/// phase angle.
std::optional<ReadForm> read_form(Quantity, Circuit, std::complex<double> impedance_ohm,
                                  double angular_frequency);

/// The port between those points; nothing for points that the electrical model does not know (a shield).
std::optional<CoilPort> port_of(Between);

/// The circuit that is meant where a reading does not say: series, but parallel for a capacitance.
Circuit usual_circuit(Quantity);

} // namespace coilward
