#pragma once

#include "rewind/rewind_chart.h"

#include <string>

namespace coilward {

/// The chart of a bench's rewinds for a terminal: every coil, the limits, and what shows that more than
/// chance is at work.
std::string chart_page(const RewindChart&);

/// The same as a picture: individual values above, moving ranges below. SVG.
std::string chart_picture(const RewindChart&);

/// The same as one JSON document on one line (docs/rewinding.md).
std::string chart_to_json(const RewindChart&);

} // namespace coilward
