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
using SqlValues = std::vector<SqlValue>;
using SqlRow = std::vector<SqlValue>;

inline SqlValue sql_of(const Id& id) {
    return Blob{std::string(id.bytes.begin(), id.bytes.end())};
}

inline SqlValue sql_of(Moment at) {
    return at.time_since_epoch().count();
}

inline SqlValue sql_of(bool truth) {
    return std::int64_t{truth};
}

template <typename Value>
SqlValue sql_of(const std::optional<Value>& value) {
    return value ? SqlValue(*value) : SqlValue();
}

inline std::int64_t whole_in(const SqlValue& value) {
    return std::get<std::int64_t>(value);
}

inline bool truth_in(const SqlValue& value) {
    return whole_in(value) != 0;
}

inline const std::string& text_in(const SqlValue& value) {
    return std::get<std::string>(value);
}

inline const std::string& bytes_in(const SqlValue& value) {
    return std::get<Blob>(value).bytes;
}

inline bool is_null(const SqlValue& value) {
    return std::holds_alternative<std::monostate>(value);
}

inline std::optional<double> number_in(const SqlValue& value) {
    if (is_null(value)) return std::nullopt;
    return std::get<double>(value);
}

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
