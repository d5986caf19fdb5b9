#include "history/store_error.h"

#include <fmt/format.h>
#include <sqlite3.h>

namespace coilward {
namespace {

/// What is the matter and what to do, by SQLite's primary result code.
std::string advice(int code, const char* message) {
    switch (code) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return "another program is writing to this history; wait until it is done, or close it";
    case SQLITE_PERM:
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
        return "cannot be opened for writing; allow yourself to write to the file and its folder, or choose "
               "another "
               "folder with --data DIR";
    case SQLITE_FULL:
        return "the disk is full; make room and do it again (what was kept before is safe)";
    case SQLITE_IOERR:
        return fmt::format(
            "the disk would not read or write ({}); check its free space, its quota and its health, "
            "and do it again (what was kept before is safe)",
            message);
    case SQLITE_CORRUPT:
        return "the file is damaged; copy it to another disk before anything else, then use the latest good "
               "copy";
    case SQLITE_NOTADB:
        return "this file is no history; move it away, or choose another folder with --data DIR (nothing was "
               "changed)";
    default:
        return fmt::format("the history refuses this: {}", message);
    }
}

} // namespace

HistoryError explained(const std::string& file, const SQLite::Exception& error) {
    constexpr int primary = 0xff; // https://www.sqlite.org/rescode.html: the low byte of an extended code
    const int code = error.getErrorCode();
    return HistoryError(fmt::format("{}: {}", file, advice(code < 0 ? code : code & primary, error.what())));
}

} // namespace coilward
