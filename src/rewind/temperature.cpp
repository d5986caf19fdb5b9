#include "rewind/temperature.h"

#include "diagnosis/evidence.h"
#include "wire/copper.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace coilward {

std::optional<Uncertain> temperature_in(const std::vector<Reading>& readings) {
    std::optional<Uncertain> found;
    for (const Reading& reading : readings)
        if (reading.quantity == Quantity::temperature && !reading.handling && reading.value &&
            reading.state == State::ok && can_be_temperature(*reading.value))
            found = {*reading.value, reading.standard_uncertainty.value_or(1.0)};
    return found;
}

std::optional<Uncertain> temperature_in(const std::vector<StoredReading>& stored) {
    std::vector<Reading> readings;
    std::ranges::transform(stored, std::back_inserter(readings), &StoredReading::reading);
    return temperature_in(readings);
}

Uncertain at_20_ohm(Uncertain resistance_ohm, Uncertain temperature_c) {
    const double value = resistance_at_20_ohm(resistance_ohm.value, temperature_c.value);
    // d ln R20 / dT = −α / (1 + α (T − 20))
    const double per_kelvin = copper_alpha_20_per_kelvin * value / resistance_ohm.value;
    const double relative = std::hypot(resistance_ohm.standard_uncertainty / resistance_ohm.value,
                                       per_kelvin * temperature_c.standard_uncertainty);
    return {value, value * relative};
}

} // namespace coilward
