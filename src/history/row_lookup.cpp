#include "history/row_lookup.h"

#include "history/sql_values.h"

#include <SQLiteCpp/Database.h>
#include <fmt/format.h>

namespace coilward {
namespace {

std::int64_t row_with(const SQLite::Database& database, const std::filesystem::path& file,
                      std::string_view of_what, const char* query, const Id& id) {
    SQLite::Statement statement(database, query);
    bind_id(statement, 1, id);
    if (!statement.executeStep())
        throw HistoryError(
            fmt::format("{}: there is no {} {}; it may be in another data folder: choose it with "
                        "--data DIR",
                        file.string(), of_what, text_of(id)));
    return statement.getColumn(0).getInt64();
}

} // namespace

std::int64_t pickup_row(const SQLite::Database& database, const std::filesystem::path& file, const Id& id) {
    return row_with(database, file, "pickup", "SELECT pickup_id FROM pickups WHERE uid = ?", id);
}

std::int64_t visit_row(const SQLite::Database& database, const std::filesystem::path& file, const Id& id) {
    return row_with(database, file, "visit", "SELECT visit_id FROM visits WHERE uid = ?", id);
}

void require_id(const std::filesystem::path& file, std::string_view of_what, const Id& id) {
    if (id == Id{})
        throw HistoryError(fmt::format("{}: a {} without an id cannot be kept", file.string(), of_what));
}

} // namespace coilward
