#pragma once

#include "serve/meter_desk.h"

#include <string>

namespace coilward {

/// A reading as a display shows it: with the digits that the meter itself gives, and no uncertainty.
/// "6.1120 kΩ", "over range (beyond 20 MΩ)".
std::string display_words(const StampedReading&);

/// One meter for the page, on one line.
std::string meter_to_json(std::size_t index, const BenchMeter&, const MeterFace&);

/// One point of a trace: {"at": …, "value": …}; a value of null where there was no number.
std::string trace_point_to_json(const StampedReading&);

} // namespace coilward
