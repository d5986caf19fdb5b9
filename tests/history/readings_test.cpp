#include "examples.h"
#include "refusal.h"
#include "temporary_folder.h"

#include <cfloat>
#include <cmath>
#include <limits>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::bridge;
using testing::dc_resistance;
using ::testing::ElementsAre;
using testing::id;
using ::testing::IsEmpty;
using testing::refusal;
using testing::stored;
using testing::visit_of;

struct Readings : ::testing::Test {
    testing::TemporaryFolder folder;
    History history{folder.path()};
    Pickup pickup = history.add_pickup(bridge());
    Visit visit = visit_of(pickup, 10, "2026-03-02T10:00:00Z");

    Readings() { history.begin_visit(visit); }

    std::vector<StoredReading> kept() const { return History(folder.path()).readings_of(visit.id); }
};

/// Readings that between them have every word, every member and awkward numbers.
std::vector<Reading> every_kind_of_reading() {
    std::vector<Reading> readings;
    const auto base = [] { return dc_resistance(6112.0); };
    for (int n = 0; n <= static_cast<int>(Quantity::resonance_frequency); ++n) {
        readings.push_back(base());
        readings.back().quantity = static_cast<Quantity>(n);
    }
    for (int n = 0; n <= static_cast<int>(Between::finish_shield); ++n) {
        readings.push_back(base());
        readings.back().between = static_cast<Between>(n);
    }
    for (const auto circuit : {Circuit::series, Circuit::parallel}) {
        readings.push_back(base());
        readings.back().circuit = circuit;
        readings.back().frequency_hz = 1000.0;
    }
    for (const auto polarity : {Polarity::as_expected, Polarity::reversed, Polarity::none})
        readings.push_back({.quantity = Quantity::polarity, .polarity = polarity, .coil = "screw"});
    readings.push_back({.quantity = Quantity::insulation_resistance,
                        .between = Between::start_frame,
                        .state = State::over_range,
                        .limit = 2.0e7});
    readings.push_back({.quantity = Quantity::dc_resistance, .state = State::under_range, .limit = 0.1});
    readings.push_back(
        {.quantity = Quantity::dc_resistance, .state = State::unstable, .value = 8e5, .spread = 3e5});
    readings.push_back({.quantity = Quantity::temperature, .value = -0.5});
    for (const double number :
         {0.0, 1.0 / 3.0, DBL_MIN, DBL_MAX, -DBL_MAX, std::numeric_limits<double>::denorm_min(),
          9007199254740993.0, 1e22, 4.6e-11, 2.331}) {
        readings.push_back(base());
        readings.back().value = readings.back().standard_uncertainty = number;
        readings.back().frequency_hz = readings.back().limit = readings.back().spread = number;
    }
    return readings;
}

TEST_F(Readings, OfEveryKindComeBackExactly) {
    std::vector<StoredReading> appended;
    for (const auto& reading : every_kind_of_reading()) {
        appended.push_back(stored(visit, 100 + static_cast<unsigned>(appended.size()), reading));
        history.append_reading(appended.back());
    }
    EXPECT_EQ(kept(), appended);
}

TEST_F(Readings, ComeBackWithMeterPortBytesAndRemark) {
    auto first = stored(visit, 100, dc_resistance(6112.0));
    first.meter = "bench-lcr";
    first.port = "/dev/ttyUSB0";
    first.raw = std::string("\x00\xff 6.112\r\n\x00", 11);
    first.remark = "probes at the braid";
    auto second = stored(visit, 101, dc_resistance(6113.0));
    second.meter = "bench-lcr";
    second.port = "tcp://[::1]:5025";
    auto third = first;
    third.id = id(102);
    third.at += std::chrono::seconds(1);
    history.append_readings(std::vector{first, second, third});
    EXPECT_THAT(kept(), ElementsAre(first, second, third));
}

TEST_F(Readings, ComeInTheOrderTaken) {
    const auto early = stored(visit, 100, dc_resistance(1.0));
    const auto late = stored(visit, 101, dc_resistance(2.0));
    history.append_reading(late);
    history.append_reading(early);
    EXPECT_THAT(kept(), ElementsAre(early, late));
}

TEST_F(Readings, AreCorrectedByAnotherThatNamesThem) {
    const auto wrong = stored(visit, 100, dc_resistance(6112.0, "slug"));
    auto correction = stored(visit, 101, dc_resistance(6112.0, "screw"));
    correction.corrects = wrong.id;
    correction.remark = "it was the other coil";
    auto second_correction = stored(visit, 102, dc_resistance(6121.0, "screw"));
    second_correction.corrects = correction.id;
    const auto other = stored(visit, 103, dc_resistance(5900.0, "slug"));
    history.append_readings(std::vector{wrong, correction});
    history.append_readings(std::vector{second_correction, other});
    EXPECT_THAT(kept(), ElementsAre(wrong, correction, second_correction, other));
    EXPECT_THAT(current_readings(kept()), ElementsAre(second_correction, other));
}

TEST_F(Readings, AreCorrectedOnceAndWithinTheirVisit) {
    const auto another_visit = visit_of(pickup, 11, "2026-03-03T10:00:00Z");
    history.begin_visit(another_visit);
    const auto wrong = stored(visit, 100, dc_resistance(6112.0));
    auto correction = stored(visit, 101, dc_resistance(6121.0));
    correction.corrects = wrong.id;
    history.append_readings(std::vector{wrong, correction});

    auto again = stored(visit, 102, dc_resistance(6130.0));
    again.corrects = wrong.id;
    EXPECT_EQ(refusal<HistoryError>([&] { history.append_reading(again); }),
              folder.file().string() +
                  ": the reading 00000000-0000-4000-8000-000000000064 is corrected already, by "
                  "00000000-0000-4000-8000-000000000065; correct that one");
    auto elsewhere = stored(another_visit, 103, dc_resistance(6130.0));
    elsewhere.corrects = correction.id;
    EXPECT_EQ(refusal<HistoryError>([&] { history.append_reading(elsewhere); }),
              folder.file().string() +
                  ": there is no reading 00000000-0000-4000-8000-000000000065 in this visit to "
                  "correct; a correction belongs to the visit of what it corrects");
    EXPECT_THAT(kept(), ElementsAre(wrong, correction));
}

TEST_F(Readings, ThatAreNotFiniteAreRefused) {
    const std::pair<double, const char*> numbers[] = {
        {std::nan(""), "nan"}, {INFINITY, "inf"}, {-INFINITY, "-inf"}};
    std::optional<double> Reading::*const members[] = {&Reading::frequency_hz, &Reading::value,
                                                       &Reading::standard_uncertainty, &Reading::limit,
                                                       &Reading::spread};
    for (const auto& [number, word] : numbers)
        for (const auto member : members) {
            auto reading = dc_resistance(6112.0);
            reading.*member = number;
            EXPECT_EQ(refusal<HistoryError>([&] { history.append_reading(stored(visit, 100, reading)); }),
                      folder.file().string() + ": a reading of dc_resistance with the number " + word +
                          " cannot be kept; readings are finite numbers or states");
        }
    EXPECT_THAT(kept(), IsEmpty());
}

TEST_F(Readings, AreAllKeptOrNone) {
    auto bad = stored(visit, 101, dc_resistance(std::nan("")));
    EXPECT_THROW(history.append_readings(std::vector{stored(visit, 100, dc_resistance(1.0)), bad}),
                 HistoryError);
    EXPECT_THAT(kept(), IsEmpty());
}

TEST_F(Readings, NeedAVisitAndAnIdOfTheirOwn) {
    const auto file = folder.file().string();
    const auto lost = visit_of(pickup, 99, "2026-03-02T10:00:00Z");
    EXPECT_EQ(refusal<HistoryError>([&] { history.append_reading(stored(lost, 100, dc_resistance(1.0))); }),
              file + ": there is no visit 00000000-0000-4000-8000-000000000063; it may be in another data "
                     "folder: choose it "
                     "with --data DIR");
    EXPECT_EQ(refusal<HistoryError>([&] { history.append_reading(stored(visit, 0, dc_resistance(1.0))); }),
              "not refused")
        << "id(0) has version and variant bits and is not nil";
    auto without_id = stored(visit, 100, dc_resistance(1.0));
    without_id.id = Id{};
    EXPECT_EQ(refusal<HistoryError>([&] { history.append_reading(without_id); }),
              file + ": a reading without an id cannot be kept");
    EXPECT_EQ(refusal<HistoryError>([&] { history.append_reading(stored(visit, 0, dc_resistance(2.0))); }),
              file + ": the history refuses this: this reading is kept already");
    EXPECT_THAT(kept(), ElementsAre(stored(visit, 0, dc_resistance(1.0))));
}

TEST_F(Readings, ExplainThemselvesAtAnSqlPrompt) {
    std::vector<StoredReading> appended;
    for (const auto& reading : every_kind_of_reading())
        appended.push_back(stored(visit, 100 + static_cast<unsigned>(appended.size()), reading));
    history.append_readings(appended);

    const SQLite::Database database(folder.file().string());
    SQLite::Statement rows(database,
                           "SELECT quantity, \"between\", circuit, state, polarity, unit, value, at, pickup "
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
    }
    EXPECT_FALSE(rows.executeStep());
}

TEST_F(Readings, TakeNoMoreThan120BytesEach) {
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
