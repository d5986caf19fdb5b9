#pragma once

#include "history/pickup.h"

#include <string_view>
#include <vector>

#include <SQLiteCpp/Statement.h>

/// Pickups as rows of the tables pickups, pickup_coils and pickup_changes. All throw SQLite::Exception;
/// transactions are the caller's.
namespace coilward {

/// Selects the pickups for which the SQL condition holds, by number: one row a coil, one without a coil for a
/// pickup that has none.
SQLite::Statement select_pickups(const SQLite::Database&, std::string_view where);

/// The pickups that such a statement selects.
std::vector<Pickup> pickups_in(SQLite::Statement& rows);

/// Returns the new pickup's number.
std::int64_t insert_pickup(const SQLite::Database&, const Pickup&);

/// Overwrites the pickup with this number.
void update_pickup(const SQLite::Database&, const Pickup&);

void insert_changes(const SQLite::Database&, std::int64_t pickup, const std::vector<PickupChange>&);

} // namespace coilward
