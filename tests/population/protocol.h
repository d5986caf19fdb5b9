#pragma once

#include "faults.h"
#include "meters.h"

#include <span>
#include <string_view>
#include <vector>

namespace population {

/// Which readings are taken: `full`, `typical`, `sparse`, `forms` (as few as typical, but in other forms:
/// impedance with angle, parallel circuit, dissipation factor) and `high` (as few, at 1 and at 10 kHz).
std::span<const std::string_view> protocol_names();

/// The readings of one coil at `temperature_c` by one bench, as the documents have them.
std::vector<ReadingJson> examine(const Coil&, const Ailment&, const Instruments&, double temperature_c,
                                 std::string_view protocol, Random&);

} // namespace population
