#pragma once

#include "history/whole_pickup.h"

#include <string>

namespace coilward {

/// {"pickups": [...]}, on one line (docs/history.md).
std::string pickups_to_json(const std::vector<Pickup>&);

/// One pickup with its former values and, where it has any, its attachments, on one line.
std::string pickup_to_json(const Pickup&, const std::vector<PickupChange>&,
                           const std::vector<Attachment>& = {});

/// The pickup and all its visits with their readings and verdicts, on one line. Throws HistoryError.
std::string history_to_json(const History&, const Pickup&);

/// The whole of it, with the former values and the attached files' bytes in base64, but without the number,
/// which is each bench's own, on one line: the same text on every bench that has the same. Each attachment's
/// bytes must be among its contents, else std::out_of_range.
std::string whole_pickup_to_json(const WholePickup&);

} // namespace coilward
