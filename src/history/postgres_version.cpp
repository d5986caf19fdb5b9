#include "history/history.h"
#include "history/postgres_schema.h"

#include <fmt/format.h>
#include <pqxx/pqxx>

namespace coilward {

int server_schema_version(pqxx::nontransaction& session, const std::string& place) {
    const auto tables =
        session.exec1("SELECT count(*), count(*) FILTER (WHERE tablename = 'coilward_schema') "
                      "FROM pg_tables WHERE schemaname = current_schema()");
    if (tables[0].as<int>() == 0) return 0;
    if (tables[1].as<int>() == 0)
        throw HistoryError(
            fmt::format("{}: this database belongs to another program; make one of its own for the "
                        "history and name it after --data (nothing was changed)",
                        place));
    const int version = session.exec1("SELECT max(version) FROM coilward_schema")[0].as<int>();
    if (version > postgres_schema_version)
        throw HistoryError(
            fmt::format("{}: a newer coilward wrote this history (schema version {}; this program knows "
                        "versions up to {}); use that newer program (nothing was changed)",
                        place, version, postgres_schema_version));
    return version;
}

} // namespace coilward
