#include "history/open_database.h"

#include "history/postgres_database.h"
#include "history/sqlite_database.h"

namespace coilward {

bool names_a_server(std::string_view address) {
    // https://www.postgresql.org/docs/15/libpq-connect.html#LIBPQ-CONNSTRING
    return address.starts_with("postgresql://") || address.starts_with("postgres://");
}

std::unique_ptr<Database> open_database(const std::string& address, HistoryOptions options) {
    if (names_a_server(address)) return std::make_unique<PostgresDatabase>(address, options);
    return std::make_unique<SqliteDatabase>(address, options);
}

} // namespace coilward
