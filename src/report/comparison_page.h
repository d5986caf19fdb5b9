#pragma once

#include "rewind/coil_comparison.h"

#include <string>

namespace coilward {

/// The comparison for a terminal: every quantity of every coil with its uncertainty, and which differences
/// are more than chance.
std::string comparison_page(const CoilComparison&);

/// The same as one JSON document on one line (docs/rewinding.md).
std::string comparison_to_json(const CoilComparison&);

} // namespace coilward
