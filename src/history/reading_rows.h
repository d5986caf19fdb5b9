#pragma once

#include "history/database.h"
#include "history/history.h"
#include "history/reading_words.h"

#include <map>

/// Readings as rows of the table readings.
namespace coilward {

/// What becomes of a reading that corrects one which another reading corrects already.
enum class SecondCorrection { refused, kept };

/// Puts readings into the database, within the caller's transaction. Throws HistoryError.
class ReadingInsertion {
public:
    /// Database and words must outlive it.
    ReadingInsertion(Database&, const ReadingWords&, SecondCorrection);

    /// One of a visit that is there; refuses what History::append_reading refuses.
    void insert(const StoredReading&);

private:
    std::int64_t visit_row_of(const Id&);
    std::int64_t meter_row_of(const std::string& driver, const std::string& port);
    SqlValue corrected_row(std::int64_t visit, const StoredReading&);
    template <typename Kind>
    SqlValue code(std::string_view column, const std::optional<Kind>&) const;

    Database& database_;
    const ReadingWords& words_;
    SecondCorrection second_correction_;
    std::map<Id, std::int64_t> visits_;
    std::map<std::pair<std::string, std::string>, std::int64_t> meters_;
};

/// The readings of the visit, by time. Throws HistoryError.
std::vector<StoredReading> select_readings(Database&, const ReadingWords&, const Id& visit);

} // namespace coilward
