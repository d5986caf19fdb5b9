#include "history/row_lookup.h"

#include "history/history.h"

#include <fmt/format.h>

namespace coilward {
namespace {

std::int64_t row_with(Database& database, std::string_view of_what, std::string_view query, const Id& id) {
    const auto rows = database.run(query, {sql_of(id)});
    if (rows.empty())
        throw HistoryError(
            fmt::format("{}: there is no {} {}; it may be in another data folder: choose it with "
                        "--data DIR",
                        database.place(), of_what, text_of(id)));
    return whole_in(rows.front()[0]);
}

} // namespace

std::int64_t pickup_row(Database& database, const Id& id) {
    return row_with(database, "pickup", "SELECT pickup_id FROM pickups WHERE uid = $1", id);
}

std::int64_t visit_row(Database& database, const Id& id) {
    return row_with(database, "visit", "SELECT visit_id FROM visits WHERE uid = $1", id);
}

void require_id(const Database& database, std::string_view of_what, const Id& id) {
    if (id == Id{})
        throw HistoryError(fmt::format("{}: a {} without an id cannot be kept", database.place(), of_what));
}

} // namespace coilward
