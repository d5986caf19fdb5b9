#include "every_kind_of_reading.h"
#include "examples.h"
#include "temporary_folder.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::bridge;
using testing::dc_resistance;
using testing::stored;
using testing::visit_of;

struct ReadingsInAFile : ::testing::Test {
    testing::TemporaryFolder folder;
    History history{folder.path()};
    Pickup pickup = history.add_pickup(bridge());
    Visit visit = visit_of(pickup, 10, "2026-03-02T10:00:00Z");

    ReadingsInAFile() { history.begin_visit(visit); }
};

TEST_F(ReadingsInAFile, ExplainThemselvesAtAnSqlPrompt) {
    std::vector<StoredReading> appended;
    for (const auto& reading : testing::every_kind_of_reading())
        appended.push_back(stored(visit, 100 + static_cast<unsigned>(appended.size()), reading));
    history.append_readings(appended);

    const SQLite::Database database(folder.file().string());
    SQLite::Statement rows(
        database, "SELECT quantity, \"between\", circuit, state, polarity, unit, value, at, pickup, handling "
                  "FROM readings_in_words ORDER BY reading_id");
    for (const auto& [reading_id, visit_id, at, meter, port, reading, raw, corrects, remark] : appended) {
        ASSERT_TRUE(rows.executeStep());
        EXPECT_EQ(rows.getColumn(0).getString(), name(reading.quantity));
        EXPECT_EQ(rows.getColumn(1).getString(), name(reading.between));
        EXPECT_EQ(rows.getColumn(2).getString(), reading.circuit ? name(*reading.circuit) : "");
        EXPECT_EQ(rows.getColumn(3).getString(), name(reading.state));
        EXPECT_EQ(rows.getColumn(4).getString(), reading.polarity ? name(*reading.polarity) : "");
        EXPECT_EQ(rows.getColumn(5).getString(), unit(reading.quantity));
        EXPECT_EQ(rows.getColumn(6).isNull(), !reading.value.has_value());
        EXPECT_EQ(rows.getColumn(7).getString(), text_of(at));
        EXPECT_EQ(rows.getColumn(8).getString(), "Bridge, red guitar");
        EXPECT_EQ(rows.getColumn(9).getString(), reading.handling ? name(*reading.handling) : "");
    }
    EXPECT_FALSE(rows.executeStep());
}

TEST_F(ReadingsInAFile, TakeNoMoreThan120BytesEach) {
    // 400 pickups with 5 visits of 10 readings, as an LCR meter gives them: two digits of milliseconds,
    // five-digit numbers, no raw bytes.
    std::vector<StoredReading> readings;
    for (unsigned p = 0; p < 400; ++p) {
        auto another = bridge();
        another.id = random_id();
        history.add_pickup(another);
        for (unsigned v = 0; v < 5; ++v) {
            auto another_visit = visit_of(another, 0, "2026-03-02T10:00:00.250Z");
            another_visit.id = random_id();
            history.begin_visit(another_visit);
            for (unsigned r = 0; r < 10; ++r) {
                auto reading =
                    stored(another_visit, r, dc_resistance(6000.1 + p + 0.1 * r, r % 2 ? "slug" : "screw"));
                reading.id = random_id();
                reading.meter = "bench-lcr";
                reading.port = "/dev/ttyUSB0";
                reading.reading.quantity = Quantity::ac_resistance;
                reading.reading.circuit = Circuit::series;
                reading.reading.frequency_hz = 1000.0;
                reading.reading.standard_uncertainty = 8.7;
                readings.push_back(reading);
            }
        }
    }
    const auto bytes = [&] {
        const SQLite::Database database(folder.file().string());
        SQLite::Statement size(database,
                               "SELECT page_count * page_size FROM pragma_page_count, pragma_page_size");
        size.executeStep();
        return size.getColumn(0).getInt();
    };
    const auto before = bytes();
    history.append_readings(readings);
    EXPECT_LE((bytes() - before) / static_cast<double>(readings.size()), 120.0);
}

} // namespace
} // namespace coilward
