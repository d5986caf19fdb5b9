#pragma once

#include "history/database.h"
#include "history/history.h"

#include <memory>

namespace coilward {

/// True for "postgresql://…" and "postgres://…", the connection strings of PostgreSQL's own library.
bool names_a_server(std::string_view address);

/// Opens the history at an address: a folder, or a server's database, with a current schema. Throws
/// HistoryError.
std::unique_ptr<Database> open_database(const std::string& address, HistoryOptions);

} // namespace coilward
