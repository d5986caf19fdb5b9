#pragma once

#include "coil/impedance.h"
#include "reading/quantity.h"

#include <complex>
#include <optional>

namespace coilward {

/// The number that a meter shows for an impedance, and how it moves with it: d(value) = Re(weight · dZ).
struct ReadForm {
    double value = 0.0;
    std::complex<double> weight;
};

/// How `quantity`, split in `circuit`, follows from an impedance at an angular frequency. The forms are those
/// of impedance-measurement handbooks: series Z = R + jX, parallel 1/Z = G + jB; Q = |X|/R, D = R/|X|, C =
/// −1/(ωX) in series and B/ω in parallel, L = X/ω and −1/(ωB). Nothing for a quantity that is no function of
/// one impedance (temperature, polarity, resonance frequency).
std::optional<ReadForm> read_form(Quantity, Circuit, std::complex<double> impedance_ohm,
                                  double angular_frequency);

/// The port between those points; nothing for points that the electrical model does not know (a shield).
std::optional<CoilPort> port_of(Between);

/// The circuit that is meant where a reading does not say: series, but parallel for a capacitance.
Circuit usual_circuit(Quantity);

} // namespace coilward
