#pragma once

#include "history/database.h"

#include <cstdint>
#include <string_view>

namespace coilward {

/// The row of the pickup with this id. Throws HistoryError where there is none.
std::int64_t pickup_row(Database&, const Id&);

/// The row of the visit with this id. Throws HistoryError where there is none.
std::int64_t visit_row(Database&, const Id&);

/// Throws HistoryError for the nil id, which marks an id that was forgotten.
void require_id(const Database&, std::string_view of_what, const Id& id);

} // namespace coilward
