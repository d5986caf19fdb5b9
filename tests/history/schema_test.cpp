#include "examples.h"
#include "history/schema.h"
#include "refusal.h"
#include "temporary_folder.h"

#include <fstream>
#include <sstream>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::at;
using ::testing::ElementsAre;
using testing::id;
using testing::refusal;
using testing::TemporaryFolder;

std::string text_in(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

void write(const std::filesystem::path& file, const std::string& text) {
    std::ofstream(file, std::ios::binary) << text;
}

/// Makes a database of the SQL text.
void make(const std::filesystem::path& file, const std::string& sql) {
    SQLite::Database(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE).exec(sql);
}

std::string example(const char* name) {
    return text_in(std::filesystem::path(COILWARD_SOURCE_DIR) / "tests/history" / name);
}

std::string answer(const SQLite::Database& database, const char* query) {
    SQLite::Statement statement(database, query);
    return statement.executeStep() ? statement.getColumn(0).getString() : "";
}

/// Every table, index, view and trigger with the SQL that makes it.
std::string schema_of(const std::filesystem::path& file) {
    const SQLite::Database database(file.string());
    return answer(database, "SELECT group_concat(type || ' ' || name || ': ' || ifnull(sql, ''), char(10)) "
                            "FROM (SELECT * FROM sqlite_schema ORDER BY type, name)");
}

TEST(Schema, IsMadeInAnEmptyFolderAndInAFolderThatIsNotThere) {
    const TemporaryFolder folder;
    for (const auto& data : {folder.path(), folder.path() / "share" / "coilward"}) {
        const History history(data);
        EXPECT_EQ(history.place(), (data / "history.sqlite").string());
        const SQLite::Database database(history.place());
        EXPECT_EQ(answer(database, "PRAGMA user_version"), "3");
        EXPECT_EQ(answer(database, "PRAGMA application_id"), "1131374956");
        EXPECT_EQ(answer(database, "PRAGMA journal_mode"), "wal");
        EXPECT_EQ(answer(database, "PRAGMA integrity_check"), "ok");
    }
}

TEST(Schema, IsMadeInAnEmptyFile) {
    const TemporaryFolder folder;
    write(folder.file(), "");
    EXPECT_THAT(History(folder.path()).pickups(), ::testing::IsEmpty());
}

TEST(Schema, OfVersion1IsTheFrozenOne) {
    const TemporaryFolder made;
    const TemporaryFolder frozen;
    make(made.file(), schema_0001);
    make(frozen.file(), example("version_1.sql"));
    EXPECT_EQ(schema_of(made.file()), schema_of(frozen.file()));
}

TEST(Schema, OfVersion2IsTheFrozenOne) {
    const TemporaryFolder made;
    const TemporaryFolder frozen;
    make(made.file(), std::string(schema_0001) + schema_0002);
    make(frozen.file(), example("version_2.sql"));
    EXPECT_EQ(schema_of(made.file()), schema_of(frozen.file()));
}

TEST(Schema, OfVersion3IsTheFrozenOne) {
    const TemporaryFolder made;
    const TemporaryFolder frozen;
    make(made.file(), std::string(schema_0001) + schema_0002 + schema_0003);
    make(frozen.file(), example("version_3.sql"));
    EXPECT_EQ(schema_of(made.file()), schema_of(frozen.file()));
}

TEST(Schema, OfVersion3KeepsWhatWasDoneToTheCoil) {
    const TemporaryFolder folder;
    make(folder.file(), example("version_3.sql"));
    const auto readings = History(folder.path()).readings_of(id(11));
    ASSERT_EQ(readings.size(), 2U);
    EXPECT_EQ(readings[0].reading, (Reading{.quantity = Quantity::dc_resistance,
                                            .value = 6940.0,
                                            .standard_uncertainty = 9.0,
                                            .coil = "screw",
                                            .handling = Handling::pressed}));
    EXPECT_EQ(
        readings[1].reading,
        (Reading{.quantity = Quantity::magnet_pole, .polarity = Polarity::as_expected, .coil = "screw"}));
}

/// Every earlier version, and this one, with the same invented history in it.
struct OfVersion : ::testing::TestWithParam<const char*> {};

TEST_P(OfVersion, IsOpened) {
    const TemporaryFolder folder;
    make(folder.file(), example(GetParam()));
    const History history(folder.path());

    Pickup bridge = testing::bridge();
    bridge.number = 1;
    bridge.owner = "C. Nonymous";
    const auto pickups = history.pickups();
    ASSERT_EQ(pickups.size(), 2U);
    EXPECT_EQ(pickups[0], bridge);
    EXPECT_EQ(pickups[1].name, "Neck");
    EXPECT_THAT(history.changes_of(id(1)),
                ElementsAre(PickupChange{id(70), at("2027-01-15T14:00:00Z"), "owner", "A. Nonymous"}));

    const auto visits = history.visits_of(id(1));
    ASSERT_EQ(visits.size(), 2U);
    EXPECT_EQ(visits[0], testing::visit_of(bridge, 10, "2026-03-02T10:00:00Z"));
    EXPECT_TRUE(visits[1].rewound);

    const auto moment = at("2026-03-02T10:05:00Z");
    const Reading inductance{.quantity = Quantity::inductance,
                             .circuit = Circuit::series,
                             .frequency_hz = 1000.0,
                             .value = 2.331,
                             .standard_uncertainty = 0.008,
                             .coil = "slug"};
    Reading of_screw = inductance;
    of_screw.coil = "screw";
    const Reading insulation{.quantity = Quantity::insulation_resistance,
                             .between = Between::start_frame,
                             .state = State::over_range,
                             .limit = 2.0e7,
                             .coil = "slug"};
    const auto readings = history.readings_of(id(10));
    ASSERT_EQ(readings.size(), 5U);
    EXPECT_EQ(readings[0].reading,
              (Reading{.quantity = Quantity::temperature, .value = 21.4, .standard_uncertainty = 0.5}));
    EXPECT_EQ(readings[1], (StoredReading{.id = id(21),
                                          .visit = id(10),
                                          .at = moment,
                                          .meter = "bench-lcr",
                                          .port = "/dev/ttyUSB0",
                                          .reading = inductance,
                                          .raw = "+2.331E+0\r\n",
                                          .corrects = std::nullopt,
                                          .remark = ""}));
    EXPECT_EQ(readings[2], (StoredReading{.id = id(22),
                                          .visit = id(10),
                                          .at = moment + std::chrono::milliseconds(1),
                                          .meter = "",
                                          .port = "",
                                          .reading = of_screw,
                                          .raw = "",
                                          .corrects = id(21),
                                          .remark = "it was the other coil"}));
    EXPECT_EQ(readings[3].reading, insulation);
    EXPECT_EQ(readings[4].reading,
              (Reading{.quantity = Quantity::polarity, .polarity = Polarity::reversed, .coil = "screw"}));

    EXPECT_THAT(history.verdicts_of(id(10)),
                ElementsAre(StoredVerdict{.id = id(30),
                                          .visit = id(10),
                                          .coil = "screw",
                                          .at = moment + std::chrono::milliseconds(4),
                                          .fault = "shorted-turns",
                                          .probability = 0.973,
                                          .decided = true,
                                          .healthy = false,
                                          .document = "{\"notes\": []}"}));
}

INSTANTIATE_TEST_SUITE_P(Schema, OfVersion,
                         ::testing::Values("version_1.sql", "version_2.sql", "version_3.sql"),
                         [](const auto& version) { return std::string(version.param, 9); });

TEST(Schema, OfVersion1KeepsEveryFormerValueInItsOrder) {
    const TemporaryFolder folder;
    // Two more edits of the owner, made while the clock stood still and then went back.
    make(folder.file(), example("version_1.sql") + R"(
        INSERT INTO pickup_changes VALUES
            (2, x'00000000000040008000000000000047', 1, 1800021600000, 'owner', 'D. Nonymous'),
            (3, x'00000000000040008000000000000030', 1, 1800021500000, 'owner', 'E. Nonymous');)");
    const History history(folder.path());
    const auto moment = at("2027-01-15T14:00:00Z");
    const auto ms = [](int n) { return std::chrono::milliseconds(n); };
    EXPECT_THAT(history.changes_of(id(1)),
                ElementsAre(PickupChange{id(70), moment, "owner", "A. Nonymous"},
                            PickupChange{id(71), moment + ms(1), "owner", "D. Nonymous"},
                            PickupChange{id(48), moment + ms(2), "owner", "E. Nonymous"}));
    EXPECT_EQ(history.pickup(1)->owner, "C. Nonymous");
    EXPECT_TRUE(history.problems().empty());
}

/// Refused with this text, and not a byte of the file is changed.
void expect_refused_untouched(const TemporaryFolder& folder, const std::string& text) {
    const auto before = text_in(folder.file());
    EXPECT_EQ(refusal<HistoryError>([&] { History history(folder.path()); }),
              folder.file().string() + ": " + text);
    EXPECT_TRUE(text_in(folder.file()) == before) << "the file was changed";
    EXPECT_FALSE(std::filesystem::exists(folder.file().string() + "-wal"));
}

TEST(Schema, OfANewerProgramIsRefused) {
    const TemporaryFolder folder;
    make(folder.file(), example("version_1.sql") + "PRAGMA user_version = 4;");
    expect_refused_untouched(
        folder, "a newer coilward wrote this history (schema version 4; this program knows versions "
                "up to 3); use that newer program (nothing was changed)");
}

TEST(Schema, OfAnotherProgramIsRefused) {
    constexpr auto text =
        "this database belongs to another program; move it away, or choose another folder with "
        "--data DIR (nothing was changed)";
    for (const char* sql : {"CREATE TABLE recipes (title TEXT);", "PRAGMA user_version = 1;",
                            "PRAGMA application_id = 252006673; CREATE TABLE recipes (title TEXT);"}) {
        const TemporaryFolder folder;
        make(folder.file(), sql);
        SCOPED_TRACE(sql);
        expect_refused_untouched(folder, text);
    }
}

TEST(Schema, OfNoDatabaseIsRefused) {
    constexpr auto text =
        "this file is no history; move it away, or choose another folder with --data DIR (nothing was "
        "changed)";
    for (const auto& bytes : {std::string("pickup;ohm\nneck;6112\n"), std::string(5000, '\0')}) {
        const TemporaryFolder folder;
        write(folder.file(), bytes);
        SCOPED_TRACE(bytes.substr(0, 20));
        expect_refused_untouched(folder, text);
    }
}

TEST(Schema, InADamagedFileIsRefused) {
    const TemporaryFolder folder;
    { History(folder.path()).add_pickup(testing::bridge()); }
    auto bytes = text_in(folder.file());
    // Everything after the first page, which says what the file is and where its tables are.
    std::fill(bytes.begin() + 4096, bytes.end(), '\xff');
    write(folder.file(), bytes);
    EXPECT_EQ(refusal<HistoryError>([&] { History(folder.path()).pickups(); }),
              folder.file().string() +
                  ": the file is damaged; copy it to another disk before anything else, then use the "
                  "latest good copy");
}

TEST(Schema, WithACodeThatNobodyKnowsIsNotGuessed) {
    const TemporaryFolder folder;
    make(folder.file(), example("version_1.sql") + R"(
        INSERT INTO readings SELECT 6, x'00000000000040008000000000000019', visit_id, at_ms, meter_id, coil, 99, "between",
        circuit, state, polarity, frequency, value, standard_uncertainty, range_limit, spread, NULL, remark, raw
        FROM readings WHERE reading_id = 1;)");
    const History history(folder.path());
    EXPECT_EQ(refusal<HistoryError>([&] { history.readings_of(id(10)); }),
              folder.file().string() +
                  ": the quantity of the reading 00000000-0000-4000-8000-000000000019 has the unknown "
                  "code 99; the file is damaged: use the latest good copy");
}

} // namespace
} // namespace coilward
