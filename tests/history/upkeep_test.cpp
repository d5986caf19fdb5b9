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

struct Upkeep : ::testing::Test {
    testing::TemporaryFolder folder;
    History history{folder.path()};
    Pickup bridge = history.add_pickup(testing::bridge());
};

TEST_F(Upkeep, BacksUpWhileTheHistoryIsOpen) {
    fill(history, bridge, 10);
    const testing::TemporaryFolder other;
    back_up(history, other.file());
    EXPECT_EQ(everything_to_json(History(other.path())), everything_to_json(history));
    EXPECT_EQ(testing::refusal<HistoryError>([&] { back_up(history, other.file()); }),
              other.file().string() + ": is there already; choose a name that is free, or move it away");
}

TEST_F(Upkeep, FindsNothingWrongWithASoundHistory) {
    fill(history, bridge, 10);
    EXPECT_THAT(problems_in(history), IsEmpty());
}

TEST_F(Upkeep, FindsARowThatBelongsToNothing) {
    fill(history, bridge, 10);
    {
        SQLite::Database file(folder.file().string(), SQLite::OPEN_READWRITE);
        file.exec("PRAGMA foreign_keys = OFF");
        file.exec("DROP TRIGGER IF EXISTS visits_stay");
        file.exec("INSERT INTO pickup_coils (pickup_id, position, name, coil_model) VALUES (77, 0, '', 'x')");
    }
    EXPECT_THAT(problems_in(history), ElementsAre("a row of pickup_coils belongs to no row of pickups"));
}

/// Everything but the pickups' numbers, which are each bench's own, in the order of the pickups' ids.
std::string whatever_the_bench(const History& history) {
    auto document = nlohmann::json::parse(everything_to_json(history));
    std::map<std::string, nlohmann::json> by_id;
    for (auto& one : document["histories"]) {
        one["pickup"].erase("number");
        by_id[one["pickup"]["id"]] = one;
    }
    return nlohmann::json(by_id).dump();
}

TEST_F(Upkeep, MergesTwoBenchesAlikeInEitherOrder) {
    fill(history, bridge, 10);
    const testing::TemporaryFolder second;
    History other(second.path());
    const auto neck = other.add_pickup(testing::neck());
    other.add_pickup(testing::bridge());
    fill(other, neck, 30);
    fill(other, bridge, 50);

    const testing::TemporaryFolder one;
    const testing::TemporaryFolder two;
    History forwards(one.path());
    merge(forwards, history);
    merge(forwards, other);
    History backwards(two.path());
    merge(backwards, other);
    merge(backwards, history);
    EXPECT_EQ(whatever_the_bench(forwards), whatever_the_bench(backwards));
    EXPECT_EQ(forwards.visits_of(bridge.id).size(), 2U);
    EXPECT_THAT(problems_in(forwards), IsEmpty());

    const auto before = everything_to_json(forwards);
    const auto again = merge(forwards, other);
    EXPECT_EQ(again.pickups + again.visits + again.readings + again.verdicts, 0U);
    EXPECT_EQ(everything_to_json(forwards), before);
}

TEST_F(Upkeep, ShowsWhatTwoBenchesDescribeDifferently) {
    const testing::TemporaryFolder second;
    History other(second.path());
    auto theirs = other.add_pickup(testing::bridge());
    theirs.owner = "B. Nonymous";
    other.edit_pickup(theirs, testing::id(70), testing::at("2027-01-15T14:00:00Z"));
    const auto merged = merge(history, other);
    ASSERT_EQ(merged.conflicts.size(), 1U);
    EXPECT_THAT(merged.conflicts[0], ::testing::HasSubstr("owner \"A. Nonymous\""));
    EXPECT_THAT(merged.conflicts[0], ::testing::HasSubstr("owner \"B. Nonymous\""));
    EXPECT_EQ(history.pickup(1)->owner, "A. Nonymous");
}

// The rules of RFC 4180, section 2.
TEST(Csv, QuotesByRfc4180) {
    EXPECT_EQ(csv_field("aaa"), "aaa");
    EXPECT_EQ(csv_field(" b"), " b") << "spaces belong to the field";
    EXPECT_EQ(csv_field("a,b"), "\"a,b\"");
    EXPECT_EQ(csv_field("c\r\nd"), "\"c\r\nd\"");
    EXPECT_EQ(csv_field("b\"bb"), "\"b\"\"bb\"");
}

TEST_F(Upkeep, WritesEveryReadingAsOneRecord) {
    fill(history, bridge, 10);
    const auto csv = readings_to_csv(history);
    const auto second = csv.find("\r\n", csv.find("\r\n") + 2) + 2;
    EXPECT_EQ(
        csv.substr(second),
        "00000000-0000-4000-8000-000000000001,1,\"Bridge, red guitar\",A. Nonymous,"
        "00000000-0000-4000-8000-00000000000a,2026-03-02T10:00:00.000Z,as received,0,"
        "00000000-0000-4000-8000-00000000000c,2026-03-02T10:00:00.012Z,,,screw,dc_resistance,leads,,,ok,,"
        "4100,ohm,9,,,00000000-0000-4000-8000-00000000000b,\"it was \"\"the other\"\", they said\",\r\n");
}

} // namespace
} // namespace coilward
