#pragma once

#include "history/database.h"
#include "history/history.h"

#include <map>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

namespace coilward {

/// history.sqlite in a folder: write-ahead log, every commit synced to the disk before it returns, foreign
/// keys enforced.
class SqliteDatabase final : public Database {
public:
    /// Opens the file, or makes it, and brings its schema up to date. Throws HistoryError.
    SqliteDatabase(const std::filesystem::path& folder, HistoryOptions);

    const std::string& place() const override { return file_; }

    std::vector<SqlRow> run(std::string_view sql, const SqlValues& values) override;
    std::vector<std::string> damage() override;
    bool copy_to(const std::filesystem::path& new_file) override;

protected:
    void begin() override;
    void commit() override;
    void roll_back() noexcept override;

private:
    SQLite::Statement& prepared(std::string_view sql);

    std::string file_;
    std::unique_ptr<SQLite::Database> connection_;
    std::map<std::string, SQLite::Statement, std::less<>> statements_; ///< each is compiled once
};

} // namespace coilward
