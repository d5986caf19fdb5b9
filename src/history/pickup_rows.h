#pragma once

#include "history/database.h"
#include "history/pickup.h"

#include <string_view>
#include <vector>

/// Pickups as rows of the tables pickups, pickup_coils and pickup_values. All throw HistoryError;
/// transactions are the caller's.
namespace coilward {

/// The pickups for which the SQL condition holds, by number.
std::vector<Pickup> select_pickups(Database&, std::string_view where, const SqlValues& = {});

/// Returns the new pickup's number: its own where that is free and more than 0, else the next.
std::int64_t insert_pickup(Database&, const Pickup&);

/// Overwrites the pickup with this number.
void update_pickup(Database&, const Pickup&);

/// All that the fields of the pickup were ever given, in order.
std::vector<PickupValue> select_values(Database&, const Pickup&);

/// Keeps those that are not kept yet.
void insert_values(Database&, const Pickup&, const std::vector<PickupValue>&);

/// In lower case, as far as that goes for letters of ASCII: what a search compares.
std::string in_lower_case(std::string_view);

} // namespace coilward
