#pragma once

#include "history/history.h"

#include <string>

namespace coilward {

/// {"pickups": [...]}, on one line (docs/history.md).
std::string pickups_to_json(const std::vector<Pickup>&);

/// One pickup with its former values, on one line.
std::string pickup_to_json(const Pickup&, const std::vector<PickupChange>&);

/// The pickup and all its visits with their readings and verdicts, on one line. Throws HistoryError.
std::string history_to_json(const History&, const Pickup&);

} // namespace coilward
