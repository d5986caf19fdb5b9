#include "meter/named_reading.h"

namespace coilward {

bool has_circuit(Quantity quantity) {
    return quantity == Quantity::inductance || quantity == Quantity::ac_resistance ||
           quantity == Quantity::capacitance;
}

Reading named_reading(Quantity quantity, const MeterSetting& setting) {
    Reading reading;
    reading.quantity = quantity;
    if (has_circuit(quantity)) reading.circuit = setting.circuit;
    if (needs_frequency(quantity)) reading.frequency_hz = setting.frequency_hz;
    return reading;
}

} // namespace coilward
