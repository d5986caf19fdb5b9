#include "history/history.h"
#include "history/pickup_key.h"
#include "history/pickup_rows.h"
#include "history/row_lookup.h"
#include "history/sql_values.h"
#include "history/store_error.h"

#include <algorithm>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Transaction.h>
#include <fmt/format.h>

namespace coilward {
namespace {

/// The fields in which the two differ, with the values of `former`.
std::vector<PickupChange> changes_between(const Pickup& former, const Pickup& changed, const Id& edit,
                                          Moment at) {
    std::vector<PickupChange> changes;
    const auto compare = [&](const char* field, const std::string& before, const std::string& after) {
        if (before != after) changes.push_back({edit, at, field, before});
    };
    compare("name", former.name, changed.name);
    compare("owner", former.owner, changed.owner);
    compare("instrument", former.instrument, changed.instrument);
    compare("pickup_type", former.pickup_type, changed.pickup_type);
    compare("coils", coils_in_words(former.coils), coils_in_words(changed.coils));
    compare("notes", former.notes, changed.notes);
    return changes;
}

void require_sound(const std::filesystem::path& file, const Pickup& pickup) {
    require_id(file, "pickup", pickup.id);
    if (slug_of(pickup.name).empty())
        throw HistoryError(fmt::format("{}: a pickup needs a name with a letter or digit in it, not \"{}\"",
                                       file.string(), pickup.name));
    for (auto coil = pickup.coils.begin(); coil != pickup.coils.end(); ++coil)
        if (std::any_of(pickup.coils.begin(), coil,
                        [&](const auto& other) { return other.name == coil->name; }))
            throw HistoryError(
                fmt::format("{}: two coils of the pickup \"{}\" are called \"{}\"; name each differently",
                            file.string(), pickup.name, coil->name));
}

} // namespace

Pickup History::add_pickup(Pickup pickup) {
    require_sound(file_, pickup);
    return explaining(file_, [&] {
        SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
        pickup.number = insert_pickup(*database_, pickup);
        transaction.commit();
        return std::move(pickup);
    });
}

std::size_t History::edit_pickup(const Pickup& changed, const Id& edit, Moment at) {
    require_sound(file_, changed);
    require_id(file_, "change", edit);
    return explaining(file_, [&] {
        SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
        const Pickup former = *pickup(pickup_row(*database_, file_, changed.id));
        Pickup edited = changed;
        edited.number = former.number;
        const auto changes = changes_between(former, edited, edit, at);
        insert_changes(*database_, former.number, changes);
        update_pickup(*database_, edited);
        transaction.commit();
        return changes.size();
    });
}

std::vector<Pickup> History::pickups(std::string_view containing) const {
    return explaining(file_, [&] {
        auto rows = select_pickups(*database_, "instr(searchable, lower(?1)) > 0");
        rows.bind(1, std::string(containing));
        return pickups_in(rows);
    });
}

std::optional<Pickup> History::pickup(std::int64_t number) const {
    return explaining(file_, [&]() -> std::optional<Pickup> {
        auto rows = select_pickups(*database_, "pickup_id = ?");
        rows.bind(1, number);
        auto found = pickups_in(rows);
        if (found.empty()) return std::nullopt;
        return std::move(found.front());
    });
}

std::vector<Pickup> History::pickups_with_slug(std::string_view beginning) const {
    return explaining(file_, [&] {
        // char(1114111), the last code point, sorts after whatever follows the beginning.
        auto rows = select_pickups(*database_, "slug BETWEEN ?1 AND ?1 || char(1114111)");
        rows.bind(1, std::string(beginning));
        return pickups_in(rows);
    });
}

std::vector<PickupChange> History::changes_of(const Id& pickup) const {
    return explaining(file_, [&] {
        SQLite::Statement rows(*database_, R"sql(
            SELECT edit_uid, at_ms, field, former FROM pickup_changes
            WHERE pickup_id = ? ORDER BY at_ms, change_id)sql");
        rows.bind(1, pickup_row(*database_, file_, pickup));
        std::vector<PickupChange> changes;
        while (rows.executeStep())
            changes.push_back({id_in(rows.getColumn(0)), moment_in(rows.getColumn(1)),
                               rows.getColumn(2).getString(), rows.getColumn(3).getString()});
        return changes;
    });
}

} // namespace coilward
