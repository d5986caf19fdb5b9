#pragma once

#include "history/whole_pickup.h"

#include <string_view>
#include <vector>

namespace coilward {

/// Reads what everything_to_json wrote, or one history of it, or an older export. Throws BadDocument with the
/// member, what was found and what was expected.
std::vector<WholePickup> whole_pickups_from_json(std::string_view text);

/// Reads what readings_to_csv wrote, or a table of readings from elsewhere (docs/history.md): RFC 4180, with
/// a header line that names its columns in any order. A row without ids belongs to the pickup of that name in
/// `known`, or to a new one; what it lacks in ids follows from what it says, so that the same table brings
/// nothing a second time. Throws BadDocument with the line, the column, what was found and what was expected;
/// and HistoryError.
std::vector<WholePickup> whole_pickups_from_csv(std::string_view text, const History& known);

/// Takes over what the history has not, all or nothing. Throws HistoryError.
Adopted import(History&, const std::vector<WholePickup>&);

} // namespace coilward
