#include "history/database.h"
#include "history/history.h"
#include "history/reading_rows.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>

namespace coilward {
namespace {

/// Says which of the readings cannot be kept: one that no order puts behind what it corrects, or a second one
/// of the same id.
[[noreturn]] void refuse_left_over(std::span<const StoredReading> readings, const std::set<Id>& done) {
    for (const StoredReading& reading : readings)
        if (!done.contains(reading.id))
            throw HistoryError(
                fmt::format("the reading {}: it corrects a reading that corrects it in turn; say "
                            "what it corrects, and do it again (nothing was kept)",
                            text_of(reading.id)));
    std::set<Id> seen;
    for (const StoredReading& reading : readings)
        if (!seen.insert(reading.id).second)
            throw HistoryError(
                fmt::format("the reading {}: it is given twice; leave one of them out, and do it "
                            "again (nothing was kept)",
                            text_of(reading.id)));
    throw HistoryError("the readings: they cannot be put in an order; nothing was kept");
}

/// What is corrected before what corrects it, whatever the clocks say.
std::vector<const StoredReading*> corrected_first(std::span<const StoredReading> readings) {
    std::set<Id> among_them;
    for (const StoredReading& reading : readings)
        among_them.insert(reading.id);
    std::vector<const StoredReading*> ordered;
    std::set<Id> done;
    for (bool grown = true; grown && ordered.size() < readings.size();) {
        grown = false;
        for (const StoredReading& reading : readings) {
            const bool waits = reading.corrects && among_them.contains(*reading.corrects) &&
                               !done.contains(*reading.corrects);
            if (waits || !done.insert(reading.id).second) continue;
            ordered.push_back(&reading);
            grown = true;
        }
    }
    if (ordered.size() < readings.size()) refuse_left_over(readings, done);
    return ordered;
}

/// Readings and the lines of corrections that start from them.
class Corrections {
public:
    explicit Corrections(const std::vector<StoredReading>& readings) {
        for (const StoredReading& reading : readings) {
            listed_.insert(reading.id);
            if (reading.corrects) by_corrected_[*reading.corrects].push_back(&reading);
        }
    }

    /// Also where what it corrects is not in the list.
    bool begins_a_line(const StoredReading& reading) const {
        return !reading.corrects || !listed_.contains(*reading.corrects);
    }

    /// The reading in which the line ends that counts. A circle cannot be kept.
    const StoredReading* end_of_line(const StoredReading& start) const {
        const auto found = by_corrected_.find(start.id);
        if (found == by_corrected_.end()) return &start;
        const StoredReading* latest = nullptr;
        for (const StoredReading* correction : found->second) {
            const StoredReading* end = end_of_line(*correction);
            if (!latest || std::tie(latest->at, latest->id) < std::tie(end->at, end->id)) latest = end;
        }
        return latest;
    }

private:
    std::set<Id> listed_;
    std::map<Id, std::vector<const StoredReading*>> by_corrected_;
};

} // namespace

void History::append_reading(const StoredReading& reading) {
    append_readings(std::span(&reading, 1));
}

void History::append_readings(std::span<const StoredReading> readings) {
    Transaction transaction(*database_);
    ReadingInsertion insertion(*database_, *words_, SecondCorrection::refused);
    for (const StoredReading& reading : readings)
        insertion.insert(reading);
    transaction.commit();
}

void History::adopt_readings(std::span<const StoredReading> readings) {
    Transaction transaction(*database_);
    ReadingInsertion insertion(*database_, *words_, SecondCorrection::kept);
    for (const StoredReading* reading : corrected_first(readings))
        insertion.insert(*reading);
    transaction.commit();
}

std::vector<StoredReading> History::readings_of(const Id& visit) const {
    return select_readings(*database_, *words_, visit);
}

std::vector<StoredReading> current_readings(const std::vector<StoredReading>& readings) {
    const Corrections corrections(readings);
    std::set<Id> ends;
    for (const StoredReading& reading : readings)
        if (corrections.begins_a_line(reading)) ends.insert(corrections.end_of_line(reading)->id);
    std::vector<StoredReading> current;
    std::ranges::copy_if(readings, std::back_inserter(current),
                         [&](const StoredReading& reading) { return ends.contains(reading.id); });
    return current;
}

} // namespace coilward
