#pragma once

#include <filesystem>

namespace SQLite {
class Database;
}

namespace coilward {

/// Marks the file as a history, in SQLite's header field for this: "Coil" in ASCII.
inline constexpr int history_application_id = 0x436f696c;

/// The schema that this program writes, kept in SQLite's user_version.
inline constexpr int schema_version = 3;

/// The SQL that takes version 0, an empty file, to version 1.
extern const char* const schema_0001;

/// From version 1 to version 2.
extern const char* const schema_0002;

/// From version 2 to version 3.
extern const char* const schema_0003;

/// Throws HistoryError, with the file untouched, unless it is empty or a history of this or an earlier
/// version.
void require_known_history(SQLite::Database&, const std::filesystem::path& file);

/// Takes an empty or older file to schema_version: all missing steps in one transaction.
void migrate(SQLite::Database&);

} // namespace coilward
