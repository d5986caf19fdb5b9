#pragma once

#include "history/attachment.h"
#include "history/pickup.h"
#include "history/visit.h"

#include <chrono>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <stdexcept>
#include <string_view>
#include <vector>

namespace coilward {

class Database;
class ReadingWords;

/// The history cannot be opened, read or written. One line: what, which file or server, and what to do.
struct HistoryError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// How a history is used.
struct HistoryOptions {
    std::chrono::milliseconds busy_timeout{5000}; ///< how long to wait while another program writes
};

/// The bench's memory: one SQLite file, history.sqlite, in the data folder, or a database on a PostgreSQL
/// server that several benches share. When a function that writes returns, what it was given is on the disk;
/// when it throws, nothing of it is kept. Ids and times are the caller's (random_id(), now()); a nil id is
/// refused. Every function throws HistoryError. Not to be shared by threads: each opens its own, and other
/// programs may have the same history open.
class History {
public:
    /// Opens the history at an address, a data folder or "postgresql://USER@HOST/DATABASE", and brings its
    /// schema up to date; makes folder, file and tables where there are none, but no database. Refuses what a
    /// newer program wrote, and what is no history.
    explicit History(const std::string& address, HistoryOptions = {});
    ~History();

    /// What was moved from can only be destroyed or assigned to.
    History(History&&) noexcept;

    /// Closes the history that it had.
    History& operator=(History&&) noexcept;

    /// The file, or the server and database: what messages name.
    const std::string& place() const;

    /// All that the work writes is kept, or nothing where it throws; what it throws is passed on.
    void all_or_nothing(const std::function<void()>& work);

    /// Keeps a new pickup and returns it with its number; the number that came in is not looked at.
    Pickup add_pickup(Pickup);

    /// Takes over a pickup of another history with all that its fields were given. One that is known already
    /// gets what it was given elsewhere, and of two values the later holds: see values_by_time. A new one
    /// keeps its number where that is free. Returns how many values were new.
    std::size_t adopt_pickup(const Pickup&, const std::vector<PickupValue>&);

    /// Gives the pickup with this id the values of `changed`; the former values go to its changes. Returns
    /// how many values differed; id, number and added_at stay. The edit is dated after every earlier one.
    std::size_t edit_pickup(const Pickup& changed, const Id& edit, Moment at);

    /// Those whose name, owner, instrument, notes, type or coil models contain the text, in either case of
    /// A–Z; all where it is empty. By number.
    std::vector<Pickup> pickups(std::string_view containing = {}) const;

    /// Nothing where no pickup of this history has the number.
    std::optional<Pickup> pickup(std::int64_t number) const;

    /// Nothing where no pickup of it has the id.
    std::optional<Pickup> pickup(const Id&) const;

    /// Those whose name, written as a slug (pickup_key.h), begins with the given one. By number.
    std::vector<Pickup> pickups_with_slug(std::string_view beginning) const;

    /// Those with exactly this owner and this instrument. By number.
    std::vector<Pickup> pickups_of_instrument(std::string_view owner, std::string_view instrument) const;

    /// The values that edits replaced, oldest first.
    std::vector<PickupChange> changes_of(const Id& pickup) const;

    /// All that its fields were ever given, by time.
    std::vector<PickupValue> values_of(const Id& pickup) const;

    /// Keeps a file that belongs to a pickup; the same bytes are kept once, however often they are attached.
    void attach(const Attachment&, std::string_view bytes);

    /// Oldest first.
    std::vector<Attachment> attachments_of(const Id& pickup) const;

    /// The bytes of an attached file, which are checked against their hash.
    std::string content(const ContentHash&) const;

    /// Keeps a new visit of a pickup that is there.
    void begin_visit(const Visit&);

    /// Oldest first.
    std::vector<Visit> visits_of(const Id& pickup) const;

    /// Of all pickups, the latest first, at most so many.
    std::vector<Visit> latest_visits(std::size_t at_most) const;

    /// Keeps a reading on a visit that is there. One with a number that is not finite is refused, and so is a
    /// correction of a reading that belongs to another visit or is corrected already.
    void append_reading(const StoredReading&);

    /// All of them or none.
    void append_readings(std::span<const StoredReading>);

    /// The same, of another history: here a reading may be corrected by several, of which the latest counts.
    void adopt_readings(std::span<const StoredReading>);

    /// In the order taken, with those that were corrected since: see current_readings. What was taken in the
    /// same millisecond comes in the order of the quantities.
    std::vector<StoredReading> readings_of(const Id& visit) const;

    /// Keeps a verdict on a visit that is there.
    void store_verdict(const StoredVerdict&);

    /// Oldest first; of several for one coil the last one counts.
    std::vector<StoredVerdict> verdicts_of(const Id& visit) const;

    /// What is wrong with it, one line each: pages of the file, rows that belong to nothing, readings that
    /// nobody can read, corrections of another visit, attached files that are not what they were. Empty where
    /// all is well.
    std::vector<std::string> problems() const;

    /// Writes a sound copy into a new file, while others may write to the history; whole or not at all. False
    /// where the history is no file.
    bool copy_to(const std::filesystem::path& new_file) const;

private:
    std::unique_ptr<Database> database_;
    std::unique_ptr<ReadingWords> words_;
};

/// Those that no other reading of the list corrects, in their order. Of several corrections of one reading,
/// made on two benches, the line counts that ends latest (then: has the greater id).
std::vector<StoredReading> current_readings(const std::vector<StoredReading>&);

} // namespace coilward
