#pragma once

#include "coil/coil.h"
#include "coil/fault_element.h"

#include <complex>

namespace coilward {

/// The mean over all turns of their current, for 1 A through the leads: 1 where all of it passes every turn,
/// less where it goes through a bridge, a load or a capacitance instead. By it a coil acts on whatever else
/// links the flux of all its turns alike. From 0 (direct current) to 20 kHz; the frame floats.
/// Ampere per ampere. Throws as impedance() does.
std::complex<double> mean_turn_current(const Coil&, const FaultElement&, double frequency_hz);

} // namespace coilward
