#pragma once

#include "reading/reading.h"

#include <optional>
#include <vector>

#include <boost/container/small_vector.hpp>

namespace coilward {

/// How the meter is set while the bytes arrive. A protocol whose replies carry no names or units is read by
/// it; one whose frames say everything themselves ignores it.
struct MeterSetting {
    std::vector<Quantity> quantities;   ///< of the reply's value fields, in order
    std::optional<Circuit> circuit;     ///< that splits an impedance; absent where the meter does not say
    std::optional<double> frequency_hz; ///< of the test signal; absent: none, or not known
    std::optional<double> range_limit;  ///< end of the range in use, SI unit of the first quantity
};

/// True where a quantity has another value in the series than in the parallel circuit.
bool has_circuit(Quantity);

/// A reading as it was decoded, with the size of its last digit.
struct DecodedReading {
    DecodedReading() = default;

    /// Of the quantity, with the circuit and frequency of the setting as far as they belong to it; without a
    /// value yet.
    DecodedReading(Quantity, const MeterSetting&);

    Reading reading; ///< without an uncertainty, points and coil, which follow from elsewhere
    double resolution =
        0.0; ///< one step of the last digit that was sent, SI unit; 0 where there is no number
};

/// The readings of one frame, rarely more than two: those are held without an allocation.
using DecodedReadings = boost::container::small_vector<DecodedReading, 2>;

} // namespace coilward
