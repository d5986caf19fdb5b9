#pragma once

#include "reading/reading.h"
#include "rewind/uncertain.h"

#include <optional>
#include <vector>

namespace coilward {

/// Room temperature where nobody read a thermometer, as in diagnosis.
inline constexpr Uncertain usual_room_c{21.0, 5.0};

/// The bench's temperature among the readings, the last of several; nothing where none was read.
std::optional<Uncertain> temperature_in(const std::vector<Reading>&);

/// A copper resistance at 20 °C, from what it was at a temperature, with both uncertainties.
Uncertain at_20_ohm(Uncertain resistance_ohm, Uncertain temperature_c);

} // namespace coilward
