#pragma once

#include "history/pickup.h"
#include "history/visit.h"

#include <chrono>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <stdexcept>
#include <string_view>
#include <vector>

namespace SQLite {
class Database;
}

namespace coilward {

class ReadingWords;

/// The history cannot be opened, read or written. One line: what, which file, and what to do.
struct HistoryError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

struct HistoryOptions {
    std::chrono::milliseconds busy_timeout{5000}; ///< how long to wait while another program writes
};

/// The bench's memory: one SQLite file, history.sqlite, in the data folder. When a function that writes
/// returns, what it was given is on the disk; when it throws, nothing of it is kept. Ids and times are the
/// caller's (random_id(), now()); a nil id is refused. Every function throws HistoryError. Not to be shared
/// by threads: each opens its own, and other processes may have the same file open.
class History {
public:
    /// Opens the history of a data folder and brings its schema up to date; makes folder and file where there
    /// are none. Refuses a file of a newer program, and one that is no history.
    explicit History(const std::filesystem::path& data_folder, HistoryOptions = {});
    ~History();
    History(History&&) noexcept;
    History& operator=(History&&) noexcept;

    const std::filesystem::path& file() const { return file_; }

    /// Keeps a new pickup and returns it with its number; the number that came in is not looked at.
    Pickup add_pickup(Pickup);

    /// Gives the pickup with this id the values of `changed`; the former values go to its changes. Returns
    /// how many values differed; id, number and added_at stay.
    std::size_t edit_pickup(const Pickup& changed, const Id& edit, Moment at);

    /// Those whose name, owner, instrument, notes, type or coil models contain the text, in either case of
    /// A–Z; all where it is empty. By number.
    std::vector<Pickup> pickups(std::string_view containing = {}) const;
    std::optional<Pickup> pickup(std::int64_t number) const;

    /// Those whose name, written as a slug (pickup_key.h), begins with the given one. By number.
    std::vector<Pickup> pickups_with_slug(std::string_view beginning) const;

    /// Oldest first.
    std::vector<PickupChange> changes_of(const Id& pickup) const;

    void begin_visit(const Visit&);

    /// Oldest first.
    std::vector<Visit> visits_of(const Id& pickup) const;

    /// A reading with a number that is not finite is refused, and so is a correction of a reading that
    /// belongs to another visit or is corrected already.
    void append_reading(const StoredReading&);

    /// All of them or none.
    void append_readings(std::span<const StoredReading>);

    /// In the order taken, with those that were corrected since: see current_readings.
    std::vector<StoredReading> readings_of(const Id& visit) const;

    void store_verdict(const StoredVerdict&);

    /// Oldest first; of several for one coil the last one counts.
    std::vector<StoredVerdict> verdicts_of(const Id& visit) const;

private:
    std::filesystem::path file_;
    std::unique_ptr<SQLite::Database> database_;
    std::unique_ptr<ReadingWords> words_;
};

/// Those that no other reading of the list corrects, in their order.
std::vector<StoredReading> current_readings(const std::vector<StoredReading>&);

} // namespace coilward
