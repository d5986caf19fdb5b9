#pragma once

#include "meter/frame.h"

namespace coilward {

/// True where a quantity has another value in the series than in the parallel circuit.
bool has_circuit(Quantity);

/// A reading of the quantity with the circuit and frequency of the setting, as far as they belong to it;
/// without a value yet.
Reading named_reading(Quantity, const MeterSetting&);

} // namespace coilward
