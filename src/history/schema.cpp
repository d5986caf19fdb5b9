#include "history/schema.h"

#include "history/history.h"

#include <array>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Transaction.h>
#include <fmt/format.h>

namespace coilward {
namespace {

/// Element n leads from version n to n + 1.
std::array<const char*, schema_version> migrations() {
    return {schema_0001, schema_0002, schema_0003};
}

int number(const SQLite::Database& database, const char* query) {
    SQLite::Statement statement(database, query);
    statement.executeStep();
    return statement.getColumn(0).getInt();
}

} // namespace

void require_known_history(SQLite::Database& database, const std::filesystem::path& file) {
    // One snapshot: another program may be making the file at this moment.
    const SQLite::Transaction snapshot(database);
    const int application = number(database, "PRAGMA application_id");
    const int version = number(database, "PRAGMA user_version");
    const bool empty = number(database, "SELECT count(*) FROM sqlite_schema") == 0;
    if (empty && application == 0 && version == 0) return;
    if (application != history_application_id)
        throw HistoryError(
            fmt::format("{}: this database belongs to another program; move it away, or choose another "
                        "folder with --data DIR (nothing was changed)",
                        file.string()));
    if (version > schema_version)
        throw HistoryError(
            fmt::format("{}: a newer coilward wrote this history (schema version {}; this program knows "
                        "versions up to {}); use that newer program (nothing was changed)",
                        file.string(), version, schema_version));
}

void migrate(SQLite::Database& database) {
    if (number(database, "PRAGMA user_version") == schema_version) return;
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    // Read again under the lock: another program may have migrated the file meanwhile.
    auto version = static_cast<std::size_t>(number(database, "PRAGMA user_version"));
    for (const auto steps = migrations(); version < steps.size(); ++version)
        database.exec(steps[version]);
    database.exec(fmt::format("PRAGMA user_version = {}", schema_version));
    database.exec(fmt::format("PRAGMA application_id = {}", history_application_id));
    transaction.commit();
}

} // namespace coilward
