#include "history/open_database.h"

#include "history/folder_lock.h"
#include "history/schema.h"
#include "history/store_error.h"

#include <SQLiteCpp/Database.h>
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

} // namespace

std::unique_ptr<SQLite::Database> open_database(const std::filesystem::path& file, HistoryOptions options) {
    make_folder(file.parent_path());
    const FolderLock lock(file.parent_path());
    return explaining(file, [&] {
        auto database =
            std::make_unique<SQLite::Database>(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE,
                                               static_cast<int>(options.busy_timeout.count()));
        require_known_history(*database, file);
        configure(*database);
        migrate(*database);
        return database;
    });
}

} // namespace coilward
