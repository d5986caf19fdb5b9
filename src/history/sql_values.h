#pragma once

#include "history/id.h"
#include "units/moment.h"

#include <algorithm>
#include <cstdint>
#include <optional>

#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Statement.h>

/// How the value types lie in SQL columns.
namespace coilward {

inline std::int64_t milliseconds_of(Moment at) {
    return at.time_since_epoch().count();
}

inline Moment moment_in(const SQLite::Column& column) {
    return Moment{std::chrono::milliseconds{column.getInt64()}};
}

inline void bind_id(SQLite::Statement& statement, int place, const Id& id) {
    statement.bind(place, id.bytes.data(), static_cast<int>(id.bytes.size()));
}

/// The schema holds every id to 16 bytes.
inline Id id_in(const SQLite::Column& column) {
    Id id;
    std::copy_n(static_cast<const std::uint8_t*>(column.getBlob()), id.bytes.size(), id.bytes.begin());
    return id;
}

template <typename Value>
void bind_optional(SQLite::Statement& statement, int place, const std::optional<Value>& value) {
    if (value)
        statement.bind(place, *value);
    else
        statement.bind(place);
}

inline std::optional<double> number_in(const SQLite::Column& column) {
    if (column.isNull()) return std::nullopt;
    return column.getDouble();
}

} // namespace coilward
