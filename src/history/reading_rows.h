#pragma once

#include "history/history.h"
#include "history/reading_words.h"

#include <SQLiteCpp/Statement.h>

/// Readings as rows of the table readings.
namespace coilward {

/// Puts readings into the file, within the caller's transaction. Throws HistoryError, SQLite::Exception.
class ReadingInsertion {
public:
    ReadingInsertion(const SQLite::Database&, const ReadingWords&, const std::filesystem::path& file);

    void insert(const StoredReading&);

private:
    void bind_reading(const Reading&);

    const SQLite::Database& database_;
    const ReadingWords& words_;
    const std::filesystem::path& file_;
    SQLite::Statement statement_;
};

/// The readings of the visit, in the order taken. Throws HistoryError, SQLite::Exception.
std::vector<StoredReading> select_readings(const SQLite::Database&, const ReadingWords&,
                                           const std::filesystem::path& file, const Id& visit);

} // namespace coilward
