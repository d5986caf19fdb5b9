#include "any_store.h"
#include "every_kind_of_reading.h"
#include "examples.h"
#include "refusal.h"

#include <cmath>

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

struct Readings : testing::AnyStore {
    History history{store.address()};
    Pickup pickup = history.add_pickup(bridge());
    Visit visit = visit_of(pickup, 10, "2026-03-02T10:00:00Z");

    Readings() { history.begin_visit(visit); }

    std::vector<StoredReading> kept() const { return History(store.address()).readings_of(visit.id); }
};

TEST_P(Readings, OfEveryKindComeBackExactly) {
    std::vector<StoredReading> appended;
    for (const auto& reading : testing::every_kind_of_reading()) {
        appended.push_back(stored(visit, 100 + static_cast<unsigned>(appended.size()), reading));
        history.append_reading(appended.back());
    }
    EXPECT_EQ(kept(), appended);
}

TEST_P(Readings, ComeBackWithMeterPortBytesAndRemark) {
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

TEST_P(Readings, ComeInTheOrderTaken) {
    const auto early = stored(visit, 100, dc_resistance(1.0));
    const auto late = stored(visit, 101, dc_resistance(2.0));
    history.append_reading(late);
    history.append_reading(early);
    EXPECT_THAT(kept(), ElementsAre(early, late));
}

TEST_P(Readings, AreCorrectedByAnotherThatNamesThem) {
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
    EXPECT_THAT(current_readings({correction, other}), ElementsAre(correction, other))
        << "of a part of the list";
}

TEST_P(Readings, AreCorrectedOnceAndWithinTheirVisit) {
    const auto another_visit = visit_of(pickup, 11, "2026-03-03T10:00:00Z");
    history.begin_visit(another_visit);
    const auto wrong = stored(visit, 100, dc_resistance(6112.0));
    auto correction = stored(visit, 101, dc_resistance(6121.0));
    correction.corrects = wrong.id;
    history.append_readings(std::vector{wrong, correction});

    auto again = stored(visit, 102, dc_resistance(6130.0));
    again.corrects = wrong.id;
    EXPECT_EQ(refusal<HistoryError>([&] { history.append_reading(again); }),
              store.place() + ": the reading 00000000-0000-4000-8000-000000000064 is corrected already, by "
                              "00000000-0000-4000-8000-000000000065; correct that one");
    auto elsewhere = stored(another_visit, 103, dc_resistance(6130.0));
    elsewhere.corrects = correction.id;
    EXPECT_EQ(refusal<HistoryError>([&] { history.append_reading(elsewhere); }),
              store.place() + ": there is no reading 00000000-0000-4000-8000-000000000065 in this visit to "
                              "correct; a correction belongs to the visit of what it corrects");
    EXPECT_THAT(kept(), ElementsAre(wrong, correction));
}

TEST_P(Readings, ThatAreNotFiniteAreRefused) {
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
                      store.place() + ": a reading of dc_resistance with the number " + word +
                          " cannot be kept; readings are finite numbers or states");
        }
    EXPECT_THAT(kept(), IsEmpty());
}

TEST_P(Readings, AreAllKeptOrNone) {
    auto bad = stored(visit, 101, dc_resistance(std::nan("")));
    EXPECT_THROW(history.append_readings(std::vector{stored(visit, 100, dc_resistance(1.0)), bad}),
                 HistoryError);
    EXPECT_THAT(kept(), IsEmpty());
}

TEST_P(Readings, NeedAVisitAndAnIdOfTheirOwn) {
    const auto file = store.place();
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

COILWARD_FOR_ANY_STORE(Readings);

} // namespace
} // namespace coilward
