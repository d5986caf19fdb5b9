#pragma once

#include "bench/watch.h"

#include <string>

namespace coilward {

/// What the reading shows, for people: "6.112 kΩ", "over range (beyond 20 MΩ)".
std::string shown_words(const Reading&);

/// "2026-03-02T10:00:00.250Z  DC resistance: 6.112 kΩ (low battery: ...)"
std::string reading_words(const StampedReading&);

/// "bytes that were no reading: 14 (bad_structure 1)"
std::string counts_words(const WatchEnd&);

} // namespace coilward
