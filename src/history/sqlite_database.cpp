#include "history/sqlite_database.h"

#include "history/finished_file.h"
#include "history/folder_lock.h"
#include "history/schema.h"
#include "history/store_error.h"

#include <fmt/format.h>

namespace coilward {
namespace {

void make_folder(const std::filesystem::path& folder) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error)
        throw HistoryError(
            fmt::format("{}: this folder cannot be made ({}); make it yourself, or choose another with "
                        "--data DIR",
                        folder.string(), error.message()));
}

void configure(SQLite::Database& database) {
    database.exec("PRAGMA journal_mode = WAL");
    // FULL: in WAL mode NORMAL would lose the last commits at a power failure
    // (https://www.sqlite.org/pragma.html).
    database.exec("PRAGMA synchronous = FULL");
    database.exec("PRAGMA foreign_keys = ON");
}

std::unique_ptr<SQLite::Database> opened(const std::filesystem::path& file, HistoryOptions options) {
    make_folder(file.parent_path());
    const FolderLock lock(file.parent_path());
    return explaining(file.string(), [&] {
        auto connection =
            std::make_unique<SQLite::Database>(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE,
                                               static_cast<int>(options.busy_timeout.count()));
        require_known_history(*connection, file);
        configure(*connection);
        migrate(*connection);
        return connection;
    });
}

void bind(SQLite::Statement& statement, int place, const SqlValue& value) {
    if (const auto* whole = std::get_if<std::int64_t>(&value))
        statement.bind(place, *whole);
    else if (const auto* number = std::get_if<double>(&value))
        statement.bind(place, *number);
    else if (const auto* text = std::get_if<std::string>(&value))
        statement.bindNoCopy(place, *text); // the values outlive the statement's run
    else if (const auto* blob = std::get_if<Blob>(&value))
        statement.bindNoCopy(place, blob->bytes.data(), static_cast<int>(blob->bytes.size()));
    else
        statement.bind(place);
}

SqlValue value_in(const SQLite::Column& column) {
    if (column.isNull()) return {};
    if (column.isInteger()) return column.getInt64();
    if (column.isFloat()) return column.getDouble();
    if (column.isBlob()) return Blob{column.getString()};
    return column.getString();
}

std::vector<SqlRow> rows_of(SQLite::Statement& statement) {
    std::vector<SqlRow> rows;
    while (statement.executeStep()) {
        SqlRow& row = rows.emplace_back(static_cast<std::size_t>(statement.getColumnCount()));
        for (std::size_t place = 0; place < row.size(); ++place)
            row[place] = value_in(statement.getColumn(static_cast<int>(place)));
    }
    return rows;
}

/// Frees what the statement holds of the database, also where its run failed.
struct Run {
    SQLite::Statement& statement;

    ~Run() { statement.tryReset(); }
};

} // namespace

SqliteDatabase::SqliteDatabase(const std::filesystem::path& folder, HistoryOptions options)
    : file_((folder / "history.sqlite").string()), connection_(opened(file_, options)) {}

SQLite::Statement& SqliteDatabase::prepared(std::string_view sql) {
    const auto known = statements_.find(sql);
    if (known != statements_.end()) return known->second;
    return statements_.emplace(std::string(sql), SQLite::Statement(*connection_, std::string(sql)))
        .first->second;
}

std::vector<SqlRow> SqliteDatabase::run(std::string_view sql, const SqlValues& values) {
    return explaining(file_, [&] {
        SQLite::Statement& statement = prepared(sql);
        const Run run{statement};
        for (std::size_t place = 0; place < values.size(); ++place)
            bind(statement, static_cast<int>(place) + 1, values[place]);
        return rows_of(statement);
    });
}

std::vector<std::string> SqliteDatabase::damage() {
    std::vector<std::string> problems;
    for (const SqlRow& row : run("PRAGMA integrity_check", {}))
        if (text_in(row[0]) != "ok") problems.push_back(text_in(row[0]));
    for (const SqlRow& row : run(R"sql(SELECT 'a row of ' || "table" || ' belongs to no row of ' || parent
                                       FROM pragma_foreign_key_check)sql",
                                 {}))
        problems.push_back(text_in(row[0]));
    return problems;
}

bool SqliteDatabase::copy_to(const std::filesystem::path& new_file) {
    // What SQLite could not finish it leaves behind; only what is whole gets its name.
    auto unfinished = new_file;
    unfinished += ".unfinished";
    std::error_code ignored;
    std::filesystem::remove(unfinished, ignored);
    try {
        // On a connection of its own, so that an error names the new file.
        explaining(new_file.string(), [&] {
            SQLite::Database source(file_, SQLite::OPEN_READWRITE, 5000);
            SQLite::Statement copy(source, "VACUUM INTO ?");
            copy.bind(1, unfinished.string());
            copy.exec();
        });
    } catch (...) {
        std::filesystem::remove(unfinished, ignored);
        throw;
    }
    give_name(unfinished, new_file);
    return true;
}

void SqliteDatabase::begin() {
    run("BEGIN IMMEDIATE", {});
}

void SqliteDatabase::commit() {
    run("COMMIT", {});
}

void SqliteDatabase::roll_back() noexcept {
    try {
        run("ROLLBACK", {});
    } catch (const std::exception&) {
        // A failure that SQLite has rolled back already, as when the disk is full.
    }
}

} // namespace coilward
