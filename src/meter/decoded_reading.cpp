#include "meter/decoded_reading.h"

namespace coilward {

bool has_circuit(Quantity quantity) {
    return quantity == Quantity::inductance || quantity == Quantity::ac_resistance ||
           quantity == Quantity::capacitance;
}

DecodedReading::DecodedReading(Quantity quantity, const MeterSetting& setting) {
    reading.quantity = quantity;
    if (setting.circuit && has_circuit(quantity)) reading.circuit = setting.circuit;
    if (setting.frequency_hz && needs_frequency(quantity)) reading.frequency_hz = setting.frequency_hz;
}

} // namespace coilward
