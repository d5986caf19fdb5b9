#include "history/pickup_rows.h"

#include "history/pickup_key.h"
#include "history/sql_values.h"

#include <SQLiteCpp/Database.h>
#include <fmt/format.h>

namespace coilward {
namespace {

void insert_coils(const SQLite::Database& database, std::int64_t pickup,
                  const std::vector<PickupCoil>& coils) {
    SQLite::Statement insert(database, R"sql(
        INSERT INTO pickup_coils (pickup_id, position, name, coil_model) VALUES (?, ?, ?, ?))sql");
    std::int64_t position = 0;
    for (const auto& [name, coil_model] : coils) {
        insert.bind(1, pickup);
        insert.bind(2, position++);
        insert.bind(3, name);
        insert.bind(4, coil_model);
        insert.exec();
        insert.reset();
    }
}

/// What a search looks through.
std::string searchable(const Pickup& pickup) {
    return fmt::format("{}\n{}\n{}\n{}\n{}\n{}", pickup.name, pickup.owner, pickup.instrument,
                       pickup.pickup_type, coils_in_words(pickup.coils), pickup.notes);
}

} // namespace

std::vector<Pickup> pickups_in(SQLite::Statement& rows) {
    std::vector<Pickup> pickups;
    while (rows.executeStep()) {
        const auto number = rows.getColumn(0).getInt64();
        if (pickups.empty() || pickups.back().number != number)
            pickups.push_back({.id = id_in(rows.getColumn(1)),
                               .number = number,
                               .added_at = moment_in(rows.getColumn(2)),
                               .name = rows.getColumn(3).getString(),
                               .owner = rows.getColumn(4).getString(),
                               .instrument = rows.getColumn(5).getString(),
                               .pickup_type = rows.getColumn(6).getString(),
                               .coils = {},
                               .notes = rows.getColumn(7).getString()});
        if (!rows.getColumn(9).isNull())
            pickups.back().coils.push_back({rows.getColumn(8).getString(), rows.getColumn(9).getString()});
    }
    return pickups;
}

SQLite::Statement select_pickups(const SQLite::Database& database, std::string_view where) {
    constexpr auto query = R"sql(
        SELECT pickup_id, uid, added_ms, pickups.name, owner, instrument, pickup_type, notes,
               pickup_coils.name, coil_model
        FROM pickups LEFT JOIN pickup_coils USING (pickup_id)
        WHERE {} ORDER BY pickup_id, position)sql";
    return {database, fmt::format(query, where)};
}

std::int64_t insert_pickup(const SQLite::Database& database, const Pickup& pickup) {
    SQLite::Statement insert(database, R"sql(
        INSERT INTO pickups (uid, added_ms, name, slug, owner, instrument, pickup_type, notes, searchable)
        VALUES (?, ?, ?, ?, ?, ?, ?, ?, lower(?)))sql");
    bind_id(insert, 1, pickup.id);
    insert.bind(2, milliseconds_of(pickup.added_at));
    insert.bind(3, pickup.name);
    insert.bind(4, slug_of(pickup.name));
    insert.bind(5, pickup.owner);
    insert.bind(6, pickup.instrument);
    insert.bind(7, pickup.pickup_type);
    insert.bind(8, pickup.notes);
    insert.bind(9, searchable(pickup));
    insert.exec();
    const auto number = database.getLastInsertRowid();
    insert_coils(database, number, pickup.coils);
    return number;
}

void update_pickup(const SQLite::Database& database, const Pickup& pickup) {
    SQLite::Statement update(database, R"sql(
        UPDATE pickups SET name = ?, slug = ?, owner = ?, instrument = ?, pickup_type = ?, notes = ?,
                           searchable = lower(?)
        WHERE pickup_id = ?)sql");
    update.bind(1, pickup.name);
    update.bind(2, slug_of(pickup.name));
    update.bind(3, pickup.owner);
    update.bind(4, pickup.instrument);
    update.bind(5, pickup.pickup_type);
    update.bind(6, pickup.notes);
    update.bind(7, searchable(pickup));
    update.bind(8, pickup.number);
    update.exec();
    SQLite::Statement remove(database, "DELETE FROM pickup_coils WHERE pickup_id = ?");
    remove.bind(1, pickup.number);
    remove.exec();
    insert_coils(database, pickup.number, pickup.coils);
}

void insert_changes(const SQLite::Database& database, std::int64_t pickup,
                    const std::vector<PickupChange>& changes) {
    SQLite::Statement insert(database, R"sql(
        INSERT INTO pickup_changes (edit_uid, pickup_id, at_ms, field, former) VALUES (?, ?, ?, ?, ?))sql");
    for (const auto& change : changes) {
        bind_id(insert, 1, change.edit);
        insert.bind(2, pickup);
        insert.bind(3, milliseconds_of(change.at));
        insert.bind(4, change.field);
        insert.bind(5, change.former);
        insert.exec();
        insert.reset();
    }
}

} // namespace coilward
