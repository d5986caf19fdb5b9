#pragma once

#include "history/visit.h"
#include "reading/reading.h"
#include "rewind/uncertain.h"

#include <optional>
#include <vector>

namespace coilward {

/// Room temperature where nobody read a thermometer, degC, as in diagnosis.
inline constexpr Uncertain usual_room_c{21.0, 5.0};

/// The bench's temperature among the readings, degC, the last of several; 1 K uncertain where the reading
/// does not say. Nothing where none was read.
std::optional<Uncertain> temperature_in(const std::vector<Reading>&);

/// The same of stored ones.
std::optional<Uncertain> temperature_in(const std::vector<StoredReading>&);

/// A copper resistance at 20 °C, from what it was at a temperature (degC), with both uncertainties, to first
/// order (JCGM 100:2008, 5.1.2). Throws std::invalid_argument where the linear law has no resistance left
/// (wire/copper.h).
Uncertain at_20_ohm(Uncertain resistance_ohm, Uncertain temperature_c);

} // namespace coilward
