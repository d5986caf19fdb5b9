#pragma once

#include "coil/coil.h"
#include "coil/fault_element.h"

#include <array>
#include <complex>

namespace coilward {

/// Between which two terminals the meter is; `leads_frame`: both leads joined, against the frame.
enum class CoilPort { leads, start_frame, finish_frame, leads_frame };

/// What an impedance is differentiated by: the logarithm of each positive parameter; the temperature and the
/// position themselves. Those without a comment are members of Coil and of the fault elements.
enum class Parameter {
    turns,
    ohm_per_turn,
    henry_per_turn2,
    self_capacitance,
    frame_capacitance,
    eddy_share,
    eddy_time,
    frame_insulation,
    temperature, ///< per kelvin
    bridge_share,
    bridge_resistance,
    bridge_leakage,
    position, ///< of the series element or the leak: per unit of position, not of its logarithm
    series_resistance,
    series_capacitance,
    leak_resistance,
    load_resistance,
    load_capacitance,
    tone_resistance,
    tone_capacitance,
    count
};

/// Impedance in ohm and its derivatives, ohm per unit of ln(parameter) (per kelvin for the temperature, per
/// unit for the position). 0 for what the circuit does not have.
struct ImpedanceWithGradient {
    std::complex<double> impedance_ohm;
    /// One for each Parameter, in their order.
    std::array<std::complex<double>, static_cast<std::size_t>(Parameter::count)> derivative{};
};

/// The impedance of a coil with at most one fault element, seen at a port, from 0 (direct current) to 20 kHz.
/// The frame floats when the leads are measured; the other lead floats when one lead is measured to the
/// frame. The network is solved exactly, in closed form (coil/ladder.h); the derivatives follow from the same
/// solution by Tellegen's theorem: dZ = Σ (branch current)² dz − Σ (branch voltage)² dy at unit port current.
/// At a port through which no direct current can flow, the insulation to the frame carries it. Throws
/// std::invalid_argument where the linear law leaves the copper no resistance (wire/copper.h); all else is
/// taken as it is, so resistances must be above 0.
ImpedanceWithGradient impedance_with_gradient(const Coil&, const FaultElement&, CoilPort,
                                              double frequency_hz);

/// The same without the derivatives.
std::complex<double> impedance(const Coil&, const FaultElement&, CoilPort, double frequency_hz);

} // namespace coilward
