#include "any_store.h"
#include "examples.h"
#include "refusal.h"

#include <span>

#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::refusal;

/// What another program that writes to the file is told. It need not have the settings that this one uses.
struct AppendOnly : testing::AnyStore {
    AppendOnly() {
        History history(store.address());
        auto pickup = history.add_pickup(testing::bridge());
        const auto visit = testing::visit_of(pickup, 10, "2026-03-02T10:00:00Z");
        history.begin_visit(visit);
        history.append_reading(testing::stored(visit, 20, testing::dc_resistance(6112.0)));
        history.begin_visit(testing::visit_of(pickup, 11, "2026-03-03T10:00:00Z"));
        history.store_verdict(testing::verdict(visit, 30, "slug", true));
        pickup.owner = "someone else";
        history.edit_pickup(pickup, testing::id(40), testing::at("2027-01-01T00:00:00Z"));
        history.attach(testing::label_of(pickup, visit.at), testing::label);
    }
};

using Told = std::pair<const char*, const char*>;

TEST_P(AppendOnly, RefusesEveryStatementThatWouldRewriteThePast) {
    const Told statements[] = {
        {"UPDATE readings SET value = 6121", "a reading is never edited; append one that corrects it"},
        {"UPDATE readings SET remark = 'x'", "a reading is never edited; append one that corrects it"},
        {"DELETE FROM readings", "a reading is never deleted; append one that corrects it"},
        {"UPDATE verdicts SET probability = 1", "a verdict is never edited; store a later one"},
        {"DELETE FROM verdicts", "a verdict is never deleted; store a later one"},
        {"UPDATE visits SET stage = ''", "a visit is never edited"},
        {"DELETE FROM visits", "a visit is never deleted"},
        {"UPDATE pickup_values SET value = ''", "a former value is never edited"},
        {"DELETE FROM pickup_values", "a former value is never deleted"},
        {"DELETE FROM pickups", "a pickup is never deleted"},
        {"UPDATE words SET word = 'inductance' WHERE code = 2", "what a code means never changes"},
        {"DELETE FROM words", "what a code means never changes"},
        {"UPDATE meters SET driver = 'x'", "a meter that readings name is never edited"},
        {"DELETE FROM meters", "a meter that readings name is never deleted"},
        {"UPDATE contents SET bytes = sha256", "an attached file is never edited; attach another"},
        {"DELETE FROM contents", "an attached file is never deleted"},
        {"UPDATE attachments SET note = 'x'", "an attachment is never edited; attach another"},
        {"DELETE FROM attachments", "an attachment is never deleted"},
    };
    for (const auto& [sql, answer] : statements)
        EXPECT_EQ(store.told(sql), answer) << sql;
    EXPECT_EQ(store.told("UPDATE pickups SET owner = 'A. Nonymous'"), "not refused")
        << "a pickup may be edited";
}

TEST_P(AppendOnly, RefusesWhatTheDatabaseItselfHasToReplaceOrEmptyTables) {
    const Told sqlite[] = {
        {"INSERT OR REPLACE INTO readings SELECT * FROM readings", "this reading is kept already"},
        {"INSERT OR REPLACE INTO readings SELECT reading_id + 1, uid, visit_id, at_ms, meter_id, coil, "
         "quantity, "
         "\"between\", circuit, state, polarity, frequency, 1.0, standard_uncertainty, range_limit, spread, "
         "corrects, "
         "remark, raw, handling FROM readings",
         "this reading is kept already"},
        {"INSERT INTO readings SELECT reading_id + 1, randomblob(16), visit_id + 1, at_ms, meter_id, coil, "
         "quantity, "
         "\"between\", circuit, state, polarity, frequency, 1.0, standard_uncertainty, range_limit, spread, "
         "reading_id, "
         "remark, raw, handling FROM readings",
         "a reading corrects only one of its own visit"},
        {"INSERT OR REPLACE INTO verdicts SELECT * FROM verdicts", "this verdict is kept already"},
        {"INSERT OR REPLACE INTO visits SELECT * FROM visits", "this visit is kept already"},
        {"INSERT OR REPLACE INTO pickups SELECT * FROM pickups", "this pickup is kept already"},
        {"INSERT OR REPLACE INTO words VALUES ('quantity', 2, 'inductance', 'H')",
         "what a code means never changes"},
        {"INSERT OR REPLACE INTO meters SELECT * FROM meters", "this meter is kept already"},
        {"INSERT OR REPLACE INTO attachments SELECT * FROM attachments", "this attachment is kept already"},
        {"INSERT OR REPLACE INTO contents SELECT * FROM contents", "this file is kept already"},
        {"INSERT OR REPLACE INTO pickup_values SELECT * FROM pickup_values", "this edit is kept already"},
    };
    const Told postgresql[] = {
        {"TRUNCATE readings CASCADE", "a reading is never deleted; append one that corrects it"},
        {"TRUNCATE verdicts", "a verdict is never deleted; store a later one"},
        {"TRUNCATE pickup_values", "a former value is never deleted"},
        {"TRUNCATE attachments", "an attachment is never deleted"},
    };
    for (const auto& [sql, answer] : GetParam() == testing::Kind::sqlite ? std::span<const Told>(sqlite)
                                                                         : std::span<const Told>(postgresql))
        EXPECT_EQ(store.told(sql), answer) << sql;
}

TEST_P(AppendOnly, RefusesTheSameVisitAndVerdictTwice) {
    History history(store.address());
    const auto visit = history.visits_of(testing::id(1)).front();
    EXPECT_EQ(refusal<HistoryError>([&] { history.begin_visit(visit); }),
              store.place() + ": the history refuses this: this visit is kept already");
    EXPECT_EQ(
        refusal<HistoryError>([&] { history.store_verdict(testing::verdict(visit, 30, "slug", false)); }),
        store.place() + ": the history refuses this: this verdict is kept already");
}

COILWARD_FOR_ANY_STORE(AppendOnly);

} // namespace
} // namespace coilward
