#include "history/database.h"
#include "history/history.h"
#include "history/pickup_key.h"
#include "history/pickup_rows.h"
#include "history/reading_words.h"
#include "history/row_lookup.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

namespace coilward {
namespace {

void require_plain_coils(const Database& database, const Pickup& pickup) {
    for (auto coil = pickup.coils.begin(); coil != pickup.coils.end(); ++coil) {
        if (std::any_of(pickup.coils.begin(), coil,
                        [&](const auto& other) { return other.name == coil->name; }))
            throw HistoryError(
                fmt::format("{}: two coils of the pickup \"{}\" are called \"{}\"; name each differently",
                            database.place(), pickup.name, coil->name));
        for (const std::string& word : {coil->name, coil->coil_model})
            if (word.find_first_of(" =") != std::string::npos)
                throw HistoryError(
                    fmt::format("{}: \"{}\" names no coil or coil model; write it without spaces and \"=\"",
                                database.place(), word));
    }
}

void require_sound(const Database& database, const Pickup& pickup) {
    require_id(database, "pickup", pickup.id);
    if (slug_of(pickup.name).empty())
        throw HistoryError(fmt::format("{}: a pickup needs a name with a letter or digit in it, not \"{}\"",
                                       database.place(), pickup.name));
    require_plain_coils(database, pickup);
}

/// The values that the fields get by an edit, where they differ.
std::vector<PickupValue> edited_values(const Pickup& former, const Pickup& changed, const Id& edit,
                                       Moment at) {
    const auto before = values_of(former);
    std::vector<PickupValue> edited;
    for (PickupValue& value : values_of(changed))
        if (std::ranges::none_of(before, [&](const PickupValue& other) {
                return other.field == value.field && other.value == value.value;
            }))
            edited.push_back({edit, at, std::move(value.field), std::move(value.value)});
    return edited;
}

/// Only what belongs to fields that were given more than one value: of the others the pickup itself tells.
std::vector<PickupValue> of_edited_fields(const std::vector<PickupValue>& values) {
    std::map<std::string_view, int> count;
    for (const PickupValue& value : values)
        ++count[value.field];
    std::vector<PickupValue> edited;
    std::ranges::copy_if(values, std::back_inserter(edited),
                         [&](const PickupValue& value) { return count[value.field] > 1; });
    return edited;
}

std::optional<Pickup> only(std::vector<Pickup> found) {
    if (found.empty()) return std::nullopt;
    return std::move(found.front());
}

} // namespace

Pickup History::add_pickup(Pickup pickup) {
    require_sound(*database_, pickup);
    Transaction transaction(*database_);
    pickup.number = 0;
    pickup.number = insert_pickup(*database_, pickup);
    transaction.commit();
    return pickup;
}

std::size_t History::edit_pickup(const Pickup& changed, const Id& edit, Moment at) {
    require_sound(*database_, changed);
    require_id(*database_, "change", edit);
    Transaction transaction(*database_);
    const Pickup former = *pickup(pickup_row(*database_, changed.id));
    auto values = select_values(*database_, former);
    // A clock that went back must not make an edit older than what it replaces.
    for (const PickupValue& value : values)
        if (value.edit != former.id) at = std::max(at, value.at + std::chrono::milliseconds(1));
    const auto edited = edited_values(former, changed, edit, at);
    values.insert(values.end(), edited.begin(), edited.end());
    insert_values(*database_, former, of_edited_fields(values));
    Pickup now = changed;
    now.number = former.number;
    now.added_at = former.added_at;
    update_pickup(*database_, now);
    transaction.commit();
    return edited.size();
}

std::size_t History::adopt_pickup(const Pickup& theirs, const std::vector<PickupValue>& given) {
    require_sound(*database_, theirs);
    Transaction transaction(*database_);
    auto known = pickup(theirs.id);
    std::size_t known_values = 0;
    std::vector<PickupValue> values = given;
    if (!known) {
        known = theirs;
        known->number = insert_pickup(*database_, theirs);
    } else {
        known->added_at = std::min(known->added_at, theirs.added_at);
        const auto ours = select_values(*database_, *known);
        known_values = ours.size();
        values.insert(values.end(), ours.begin(), ours.end());
    }
    for (PickupValue& value : values)
        if (value.edit == theirs.id) value.at = known->added_at;
    sort_by_time(values, theirs.id);
    insert_values(*database_, *known, of_edited_fields(values));
    put_latest(values, *known);
    update_pickup(*database_, *known);
    transaction.commit();
    return values.size() - known_values;
}

std::vector<Pickup> History::pickups(std::string_view containing) const {
    if (containing.empty()) return select_pickups(*database_, "1 = 1");
    // position(), instr() and strpos() are each known to one database alone; LIKE is known to both.
    std::string pattern = "%";
    for (const char character : in_lower_case(containing)) {
        if (character == '%' || character == '_' || character == '\\') pattern += '\\';
        pattern += character;
    }
    return select_pickups(*database_, R"(searchable LIKE $1 ESCAPE '\')", {pattern + '%'});
}

std::optional<Pickup> History::pickup(std::int64_t number) const {
    return only(select_pickups(*database_, "pickup_id = $1", {number}));
}

std::optional<Pickup> History::pickup(const Id& id) const {
    return only(select_pickups(*database_, "uid = $1", {sql_of(id)}));
}

std::vector<Pickup> History::pickups_with_slug(std::string_view beginning) const {
    // U+10FFFF, the last code point, sorts after whatever follows the beginning.
    return select_pickups(*database_, "slug BETWEEN $1 AND $2",
                          {std::string(beginning), std::string(beginning) + "\xf4\x8f\xbf\xbf"});
}

std::vector<Pickup> History::pickups_of_instrument(std::string_view owner,
                                                   std::string_view instrument) const {
    return select_pickups(*database_, "owner = $1 AND instrument = $2",
                          {std::string(owner), std::string(instrument)});
}

std::vector<PickupChange> History::changes_of(const Id& id) const {
    return changes_in(values_of(id));
}

std::vector<PickupValue> History::values_of(const Id& id) const {
    return select_values(*database_, *pickup(pickup_row(*database_, id)));
}

} // namespace coilward
