#include "history/pickup_rows.h"

#include "history/pickup_key.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace coilward {
namespace {

void insert_coils(Database& database, std::int64_t pickup, const std::vector<PickupCoil>& coils) {
    std::int64_t position = 0;
    for (const auto& [name, coil_model] : coils)
        database.run(
            "INSERT INTO pickup_coils (pickup_id, position, name, coil_model) VALUES ($1, $2, $3, $4)",
            {pickup, position++, name, coil_model});
}

/// What a search looks through.
std::string searchable(const Pickup& pickup) {
    return in_lower_case(fmt::format("{}\n{}\n{}\n{}\n{}\n{}", pickup.name, pickup.owner, pickup.instrument,
                                     pickup.pickup_type, coils_in_words(pickup.coils), pickup.notes));
}

bool is_free(Database& database, std::int64_t number) {
    return number > 0 && database.run("SELECT 1 FROM pickups WHERE pickup_id = $1", {number}).empty();
}

std::int64_t next_number(Database& database) {
    return whole_in(database.run("SELECT coalesce(max(pickup_id), 0) + 1 FROM pickups").front()[0]);
}

/// The rows of pickup_values; fields that were never edited have none.
std::vector<PickupValue> values_kept(Database& database, const Pickup& pickup) {
    std::vector<PickupValue> values;
    for (const SqlRow& row : database.run(
             "SELECT edit_uid, at_ms, field, value FROM pickup_values WHERE pickup_id = $1", {pickup.number}))
        values.push_back({id_in(row[0]), moment_in(row[1]), text_in(row[2]), text_in(row[3])});
    return values;
}

} // namespace

std::string in_lower_case(std::string_view text) {
    std::string lower(text);
    for (char& letter : lower)
        if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
    return lower;
}

std::vector<Pickup> select_pickups(Database& database, std::string_view where, const SqlValues& values) {
    constexpr auto query = R"sql(
        SELECT pickup_id, uid, added_ms, pickups.name, owner, instrument, pickup_type, notes,
               pickup_coils.name, coil_model
        FROM pickups LEFT JOIN pickup_coils USING (pickup_id)
        WHERE {} ORDER BY pickup_id, position)sql";
    std::vector<Pickup> pickups;
    for (const SqlRow& row : database.run(fmt::format(query, where), values)) {
        const auto number = whole_in(row[0]);
        if (pickups.empty() || pickups.back().number != number)
            pickups.push_back({.id = id_in(row[1]),
                               .number = number,
                               .added_at = moment_in(row[2]),
                               .name = text_in(row[3]),
                               .owner = text_in(row[4]),
                               .instrument = text_in(row[5]),
                               .pickup_type = text_in(row[6]),
                               .coils = {},
                               .notes = text_in(row[7])});
        if (!is_null(row[9])) pickups.back().coils.push_back({text_in(row[8]), text_in(row[9])});
    }
    return pickups;
}

std::int64_t insert_pickup(Database& database, const Pickup& pickup) {
    const std::int64_t number = is_free(database, pickup.number) ? pickup.number : next_number(database);
    database.run(R"sql(
        INSERT INTO pickups (pickup_id, uid, added_ms, name, slug, owner, instrument, pickup_type, notes, searchable)
        VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10))sql",
                 {number, sql_of(pickup.id), sql_of(pickup.added_at), pickup.name, slug_of(pickup.name),
                  pickup.owner, pickup.instrument, pickup.pickup_type, pickup.notes, searchable(pickup)});
    insert_coils(database, number, pickup.coils);
    return number;
}

void update_pickup(Database& database, const Pickup& pickup) {
    database.run(R"sql(
        UPDATE pickups SET added_ms = $1, name = $2, slug = $3, owner = $4, instrument = $5, pickup_type = $6,
                           notes = $7, searchable = $8
        WHERE pickup_id = $9)sql",
                 {sql_of(pickup.added_at), pickup.name, slug_of(pickup.name), pickup.owner, pickup.instrument,
                  pickup.pickup_type, pickup.notes, searchable(pickup), pickup.number});
    database.run("DELETE FROM pickup_coils WHERE pickup_id = $1", {pickup.number});
    insert_coils(database, pickup.number, pickup.coils);
}

std::vector<PickupValue> select_values(Database& database, const Pickup& pickup) {
    auto values = values_kept(database, pickup);
    std::set<std::string> edited;
    for (PickupValue& value : values) {
        edited.insert(value.field);
        if (value.edit == pickup.id) value.at = pickup.added_at;
    }
    for (PickupValue& value : values_of(pickup))
        if (!edited.contains(value.field)) values.push_back(std::move(value));
    sort_by_time(values, pickup.id);
    return values;
}

void insert_values(Database& database, const Pickup& pickup, const std::vector<PickupValue>& values) {
    const auto kept = values_kept(database, pickup);
    for (const PickupValue& value : values)
        if (std::ranges::none_of(kept, [&](const PickupValue& other) {
                return other.edit == value.edit && other.field == value.field && other.value == value.value;
            }))
            database.run(R"sql(
                INSERT INTO pickup_values (edit_uid, pickup_id, at_ms, field, value) VALUES ($1, $2, $3, $4, $5))sql",
                         {sql_of(value.edit), pickup.number, sql_of(value.at), value.field, value.value});
}

} // namespace coilward
