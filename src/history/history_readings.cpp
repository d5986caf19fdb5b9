#include "history/history.h"
#include "history/reading_rows.h"
#include "history/store_error.h"

#include <algorithm>
#include <set>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Transaction.h>

namespace coilward {

void History::append_reading(const StoredReading& reading) {
    append_readings(std::span(&reading, 1));
}

void History::append_readings(std::span<const StoredReading> readings) {
    explaining(file_, [&] {
        SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
        ReadingInsertion insertion(*database_, *words_, file_);
        for (const auto& reading : readings)
            insertion.insert(reading);
        transaction.commit();
    });
}

std::vector<StoredReading> History::readings_of(const Id& visit) const {
    return explaining(file_, [&] { return select_readings(*database_, *words_, file_, visit); });
}

std::vector<StoredReading> current_readings(const std::vector<StoredReading>& readings) {
    std::set<Id> corrected;
    for (const auto& reading : readings)
        if (reading.corrects) corrected.insert(*reading.corrects);
    std::vector<StoredReading> current;
    std::ranges::copy_if(readings, std::back_inserter(current),
                         [&](const StoredReading& reading) { return !corrected.contains(reading.id); });
    return current;
}

} // namespace coilward
