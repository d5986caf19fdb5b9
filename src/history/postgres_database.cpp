#include "history/postgres_database.h"

#include "history/hexadecimal.h"
#include "history/open_database.h"
#include "history/postgres_error.h"
#include "history/postgres_schema.h"

#include <charconv>

#include <fmt/format.h>
#include <pqxx/pqxx>

namespace coilward {

/// The library's own things, which no header of ours needs to know.
struct PostgresSession {
    explicit PostgresSession(const std::string& address) : connection(address) {
// libpqxx 6 connects anew by itself, and the transaction that was open would be lost unseen. Version 7 never
// does, which is why this is marked as deprecated.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wdeprecated-declarations"
        connection.inhibit_reactivation(true);
#pragma GCC diagnostic pop
    }

    pqxx::result exec(const std::string& sql) {
        return statements.exec(sql);
    }

    pqxx::connection connection;
    pqxx::nontransaction statements{connection}; ///< transactions are begun and ended in SQL
};

namespace {

/// The types in which the schema's columns come, by their numbers in the server's catalogue pg_type, which
/// are fixed.
enum TypeNumber : pqxx::oid { bytea = 17, int8 = 20, int4 = 23, float8 = 701 };

/// "postgresql://bench@server:5432/coilward" without what follows a ':' before the '@', or the question mark.
std::string without_secrets(const std::string& address) {
    const auto begin = address.find("://") + 3;
    const auto end = std::min(address.find('?'), address.size());
    const auto at = address.rfind('@', end);
    if (at == std::string::npos || at < begin) return address.substr(0, end);
    const auto colon = std::min(address.find(':', begin), at);
    return address.substr(0, colon) + address.substr(at, end - at);
}

/// As the server reads it; nothing for NULL.
std::optional<std::string> text_of(const SqlValue& value, const std::string& place) {
    if (const auto* whole = std::get_if<std::int64_t>(&value)) return std::to_string(*whole);
    if (const auto* number = std::get_if<double>(&value)) return fmt::format("{}", *number);
    if (const auto* blob = std::get_if<Blob>(&value)) return "\\x" + in_hexadecimal(blob->bytes);
    if (is_null(value)) return std::nullopt;
    const std::string& text = text_in(value);
    if (text.find('\0') != std::string::npos)
        throw HistoryError(
            fmt::format("{}: a text with a zero byte in it cannot be kept on a server", place));
    return text;
}

SqlValue value_in(const pqxx::field& field) {
    if (field.is_null()) return {};
    switch (field.type()) {
    case int8:
    case int4:
        return field.as<std::int64_t>();
    case float8: {
        double number = 0.0; // by from_chars: the library's own reading is not exact to the last digit
        const std::string_view text(field.c_str(), field.size());
        std::from_chars(text.data(), text.data() + text.size(), number);
        return number;
    }
    case bytea:
        return Blob{from_hexadecimal(std::string_view(field.c_str(), field.size()).substr(2)).value()};
    default:
        return std::string(field.c_str(), field.size());
    }
}

std::vector<SqlRow> rows_of(const pqxx::result& result) {
    std::vector<SqlRow> rows;
    rows.reserve(result.size());
    for (const pqxx::row& row : result) {
        SqlRow& values = rows.emplace_back();
        for (const pqxx::field& field : row)
            values.push_back(value_in(field));
    }
    return rows;
}

} // namespace

PostgresDatabase::PostgresDatabase(const std::string& address, HistoryOptions options)
    : place_(without_secrets(address)) {
    explaining_server(place_, [&] {
        session_ = std::make_unique<PostgresSession>(address);
        make_ready(options);
    });
}

PostgresDatabase::~PostgresDatabase() = default;

void PostgresDatabase::make_ready(HistoryOptions options) {
    session_->exec(
        "SET client_min_messages = warning; SET synchronous_commit = on; SET client_encoding = 'UTF8'; "
        "SET bytea_output = hex; SET extra_float_digits = 1");
    session_->exec(fmt::format("SET lock_timeout = {}", options.busy_timeout.count()));
    if (server_schema_version(session_->statements, place_) == postgres_schema_version) return;
    Transaction transaction(*this);
    // Read again under the lock: another program may have made the tables meanwhile.
    const int version = server_schema_version(session_->statements, place_);
    if (version < 2) session_->exec(postgres_schema);
    if (version < 3) session_->exec(postgres_schema_0003);
    transaction.commit();
}

const std::string& PostgresDatabase::prepared(std::string_view sql) {
    const auto known = statements_.find(sql);
    if (known != statements_.end()) return known->second;
    const auto name = fmt::format("statement_{}", statements_.size());
    session_->connection.prepare(name, std::string(sql));
    return statements_.emplace(std::string(sql), name).first->second;
}

std::vector<SqlRow> PostgresDatabase::run(std::string_view sql, const SqlValues& values) {
    std::vector<std::optional<std::string>> texts;
    std::vector<const char*> parameters;
    for (const SqlValue& value : values)
        texts.push_back(text_of(value, place_));
    for (const auto& text : texts)
        parameters.push_back(text ? text->c_str() : nullptr);
    return explaining_server(place_, [&] {
        return rows_of(session_->statements.exec_prepared(prepared(sql),
                                                          pqxx::prepare::make_dynamic_params(parameters)));
    });
}

std::vector<std::string> PostgresDatabase::damage() {
    return {}; // a server checks its own pages and constraints
}

void PostgresDatabase::begin() {
    explaining_server(place_, [&] {
        session_->exec("BEGIN");
        try {
            // One writer at a time, as in a file: numbers of pickups are given in turn.
            session_->exec(fmt::format("SELECT pg_advisory_xact_lock({})", history_lock));
        } catch (...) {
            roll_back();
            throw;
        }
    });
}

void PostgresDatabase::commit() {
    explaining_server(place_, [&] { session_->exec("COMMIT"); });
}

void PostgresDatabase::roll_back() noexcept {
    try {
        session_->exec("ROLLBACK");
    } catch (const std::exception&) {
        // Without a connection the server has rolled back already.
    }
}

} // namespace coilward
