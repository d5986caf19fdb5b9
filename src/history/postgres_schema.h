#pragma once

#include <string>

namespace pqxx {
class nontransaction;
}

namespace coilward {

/// The schema that this program writes on a server: the tables of an SQLite file of the same version.
inline constexpr int postgres_schema_version = 3;

/// What a program that writes holds until it commits: "Coil" in ASCII.
inline constexpr int history_lock = 0x436f696c;

/// The SQL that makes the tables of version 2 in an empty database.
extern const char* const postgres_schema;

/// From version 2 to version 3.
extern const char* const postgres_schema_0003;

/// 0 where the database is empty. Throws HistoryError where it is a newer program's, or holds other tables.
int server_schema_version(pqxx::nontransaction&, const std::string& place);

} // namespace coilward
