#include "any_store.h"
#include "examples.h"
#include "history/history_export.h"
#include "history/upkeep.h"
#include "refusal.h"
#include "temporary_folder.h"

#include <fstream>

#include <SQLiteCpp/Database.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// The bridge pickup with a visit, a reading, its correction and a verdict; ids from `first` on.
void fill(History& history, const Pickup& pickup, unsigned first) {
    const auto visit = testing::visit_of(pickup, first, "2026-03-02T10:00:00Z");
    history.begin_visit(visit);
    const auto wrong = testing::stored(visit, first + 1, testing::dc_resistance(4100.0, "slug"));
    auto right = testing::stored(visit, first + 2, testing::dc_resistance(4100.0, "screw"));
    right.corrects = wrong.id;
    right.remark = "it was \"the other\", they said";
    history.append_readings(std::vector{wrong, right});
    history.store_verdict(testing::verdict(visit, first + 3, "screw", false));
}

struct Upkeep : testing::AnyStore {
    History history{store.address()};
    Pickup bridge = history.add_pickup(testing::bridge());
};

TEST_P(Upkeep, BacksUpWhileTheHistoryIsOpen) {
    fill(history, bridge, 10);
    const testing::TemporaryFolder other;
    back_up(history, other.file());
    EXPECT_EQ(everything_to_json(History(other.path())), everything_to_json(history));
    EXPECT_EQ(testing::refusal<HistoryError>([&] { back_up(history, other.file()); }),
              other.file().string() + ": is there already; choose a name that is free, or move it away");
}

TEST_P(Upkeep, FindsNothingWrongWithASoundHistory) {
    fill(history, bridge, 10);
    EXPECT_THAT(history.problems(), IsEmpty());
}

TEST(UpkeepOfAFile, FindsARowThatBelongsToNothing) {
    const testing::TemporaryFolder folder;
    History history(folder.path());
    fill(history, history.add_pickup(testing::bridge()), 10);
    {
        SQLite::Database file(folder.file().string(), SQLite::OPEN_READWRITE);
        file.exec("PRAGMA foreign_keys = OFF");
        file.exec("DROP TRIGGER IF EXISTS visits_stay");
        file.exec("INSERT INTO pickup_coils (pickup_id, position, name, coil_model) VALUES (77, 0, '', 'x')");
    }
    EXPECT_THAT(history.problems(), ElementsAre("a row of pickup_coils belongs to no row of pickups"));
}

TEST_P(Upkeep, WritesEveryReadingAsOneRecord) {
    fill(history, bridge, 10);
    const auto csv = readings_to_csv(history);
    const auto second = csv.find("\r\n", csv.find("\r\n") + 2) + 2;
    EXPECT_EQ(
        csv.substr(second),
        "00000000-0000-4000-8000-000000000001,1,\"Bridge, red guitar\",A. Nonymous,"
        "00000000-0000-4000-8000-00000000000a,2026-03-02T10:00:00.000Z,as received,0,"
        "00000000-0000-4000-8000-00000000000c,2026-03-02T10:00:00.012Z,,,screw,dc_resistance,leads,,,ok,,"
        "4100,ohm,9,,,00000000-0000-4000-8000-00000000000b,\"it was \"\"the other\"\", they said\",,\r\n");
}

COILWARD_FOR_ANY_STORE(Upkeep);

} // namespace
} // namespace coilward
