#pragma once

#include "history/history.h"

#include <cstdint>

namespace coilward {

/// The row of the pickup with this id. Throws HistoryError where there is none.
std::int64_t pickup_row(const SQLite::Database&, const std::filesystem::path& file, const Id&);

/// The row of the visit with this id. Throws HistoryError where there is none.
std::int64_t visit_row(const SQLite::Database&, const std::filesystem::path& file, const Id&);

/// Throws HistoryError for the nil id, which marks an id that was forgotten.
void require_id(const std::filesystem::path& file, std::string_view of_what, const Id&);

} // namespace coilward
