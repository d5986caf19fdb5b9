#include "examples.h"
#include "refusal.h"
#include "temporary_folder.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::refusal;

/// What another program that writes to the file is told. It need not have the settings that this one uses.
struct AppendOnly : ::testing::Test {
    testing::TemporaryFolder folder;

    AppendOnly() {
        History history(folder.path());
        auto pickup = history.add_pickup(testing::bridge());
        const auto visit = testing::visit_of(pickup, 10, "2026-03-02T10:00:00Z");
        history.begin_visit(visit);
        history.append_reading(testing::stored(visit, 20, testing::dc_resistance(6112.0)));
        history.begin_visit(testing::visit_of(pickup, 11, "2026-03-03T10:00:00Z"));
        history.store_verdict(testing::verdict(visit, 30, "slug", true));
        pickup.owner = "someone else";
        history.edit_pickup(pickup, testing::id(40), testing::at("2027-01-01T00:00:00Z"));
    }

    std::string told(const std::string& sql) {
        SQLite::Database database(folder.file().string(), SQLite::OPEN_READWRITE);
        return refusal<SQLite::Exception>([&] { database.exec(sql); });
    }
};

TEST_F(AppendOnly, RefusesEveryStatementThatWouldRewriteThePast) {
    const std::pair<const char*, const char*> statements[] = {
        {"UPDATE readings SET value = 6121", "a reading is never edited; append one that corrects it"},
        {"UPDATE readings SET remark = 'x'", "a reading is never edited; append one that corrects it"},
        {"DELETE FROM readings", "a reading is never deleted; append one that corrects it"},
        {"INSERT OR REPLACE INTO readings SELECT * FROM readings", "this reading is kept already"},
        {"INSERT OR REPLACE INTO readings SELECT reading_id + 1, uid, visit_id, at_ms, meter_id, coil, "
         "quantity, "
         "\"between\", circuit, state, polarity, frequency, 1.0, standard_uncertainty, range_limit, spread, "
         "corrects, "
         "remark, raw FROM readings",
         "this reading is kept already"},
        {"INSERT INTO readings SELECT reading_id + 1, randomblob(16), visit_id + 1, at_ms, meter_id, coil, "
         "quantity, "
         "\"between\", circuit, state, polarity, frequency, 1.0, standard_uncertainty, range_limit, spread, "
         "reading_id, "
         "remark, raw FROM readings",
         "a reading corrects only one of its own visit"},
        {"UPDATE verdicts SET probability = 1", "a verdict is never edited; store a later one"},
        {"DELETE FROM verdicts", "a verdict is never deleted; store a later one"},
        {"INSERT OR REPLACE INTO verdicts SELECT * FROM verdicts", "this verdict is kept already"},
        {"UPDATE visits SET stage = ''", "a visit is never edited"},
        {"DELETE FROM visits", "a visit is never deleted"},
        {"INSERT OR REPLACE INTO visits SELECT * FROM visits", "this visit is kept already"},
        {"UPDATE pickup_changes SET former = ''", "a former value is never edited"},
        {"DELETE FROM pickup_changes", "a former value is never deleted"},
        {"DELETE FROM pickups", "a pickup is never deleted"},
        {"INSERT OR REPLACE INTO pickups SELECT * FROM pickups", "this pickup is kept already"},
        {"UPDATE words SET word = 'inductance' WHERE code = 2", "what a code means never changes"},
        {"DELETE FROM words", "what a code means never changes"},
        {"INSERT OR REPLACE INTO words VALUES ('quantity', 2, 'inductance', 'H')",
         "what a code means never changes"},
        {"UPDATE meters SET driver = 'x'", "a meter that readings name is never edited"},
        {"DELETE FROM meters", "a meter that readings name is never deleted"},
        {"INSERT OR REPLACE INTO meters SELECT * FROM meters", "this meter is kept already"},
    };
    for (const auto& [sql, answer] : statements)
        EXPECT_EQ(told(sql), answer) << sql;
    EXPECT_EQ(told("UPDATE pickups SET owner = 'A. Nonymous'"), "not refused") << "a pickup may be edited";
}

TEST_F(AppendOnly, RefusesTheSameVisitAndVerdictTwice) {
    History history(folder.path());
    const auto visit = history.visits_of(testing::id(1)).front();
    EXPECT_EQ(refusal<HistoryError>([&] { history.begin_visit(visit); }),
              folder.file().string() + ": the history refuses this: this visit is kept already");
    EXPECT_EQ(
        refusal<HistoryError>([&] { history.store_verdict(testing::verdict(visit, 30, "slug", false)); }),
        folder.file().string() + ": the history refuses this: this verdict is kept already");
}

} // namespace
} // namespace coilward
