#pragma once

#include "history/history.h"

namespace coilward {

/// Opens the file, or makes it, with a current schema: write-ahead log, every commit synced to the disk
/// before it returns, foreign keys enforced. Throws HistoryError.
std::unique_ptr<SQLite::Database> open_database(const std::filesystem::path& file, HistoryOptions);

} // namespace coilward
