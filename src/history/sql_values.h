#pragma once

#include "history/id.h"
#include "units/moment.h"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

/// How the value types lie in SQL columns, whichever database holds them.
namespace coilward {

/// Bytes that are no text.
struct Blob {
    std::string bytes;

    friend bool operator==(const Blob&, const Blob&) = default;
};

/// A number of a column, or of a statement's `$1`, `$2`…; std::monostate is NULL.
using SqlValue = std::variant<std::monostate, std::int64_t, double, std::string, Blob>;

/// One for each `$1`, `$2`…, in their order.
using SqlValues = std::vector<SqlValue>;

/// One for each column, in their order.
using SqlRow = std::vector<SqlValue>;

/// 16 bytes.
inline SqlValue sql_of(const Id& id) {
    return Blob{std::string(id.bytes.begin(), id.bytes.end())};
}

/// Milliseconds since 1970, UTC.
inline SqlValue sql_of(Moment at) {
    return at.time_since_epoch().count();
}

/// 0 or 1.
inline SqlValue sql_of(bool truth) {
    return std::int64_t{truth};
}

/// NULL where there is none.
template <typename Value>
SqlValue sql_of(const std::optional<Value>& value) {
    return value ? SqlValue(*value) : SqlValue();
}

/// The whole number of a column. This and what follows throw std::bad_variant_access where the column holds
/// something else, which no schema of ours lets it.
inline std::int64_t whole_in(const SqlValue& value) {
    return std::get<std::int64_t>(value);
}

/// False for 0.
inline bool truth_in(const SqlValue& value) {
    return whole_in(value) != 0;
}

/// As long as the value lives.
inline const std::string& text_in(const SqlValue& value) {
    return std::get<std::string>(value);
}

/// As long as the value lives.
inline const std::string& bytes_in(const SqlValue& value) {
    return std::get<Blob>(value).bytes;
}

/// Whether the column holds nothing.
inline bool is_null(const SqlValue& value) {
    return std::holds_alternative<std::monostate>(value);
}

/// Nothing for NULL.
inline std::optional<double> number_in(const SqlValue& value) {
    if (is_null(value)) return std::nullopt;
    return std::get<double>(value);
}

/// Of milliseconds since 1970, UTC.
inline Moment moment_in(const SqlValue& value) {
    return Moment{std::chrono::milliseconds{whole_in(value)}};
}

/// The schema holds every id to 16 bytes.
inline Id id_in(const SqlValue& value) {
    Id id;
    std::ranges::copy(bytes_in(value), id.bytes.begin());
    return id;
}

} // namespace coilward
