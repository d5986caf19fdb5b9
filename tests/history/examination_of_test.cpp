#include "any_store.h"
#include "examples.h"
#include "history/examination_of.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::bridge;
using testing::dc_resistance;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using testing::neck;
using testing::stored;
using testing::temperature;
using testing::verdict;
using testing::visit_of;

struct ExaminationOf : testing::AnyStore {
    History history{store.address()};

    /// A visit with these readings and, where it is given, a verdict on the coil.
    Visit visit(const Pickup& pickup, unsigned n, const char* when, const std::vector<Reading>& readings,
                bool rewound = false) {
        auto made = visit_of(pickup, n, when);
        made.rewound = rewound;
        history.begin_visit(made);
        for (unsigned r = 0; r < readings.size(); ++r)
            history.append_reading(stored(made, 256 * n + r, readings[r]));
        return made;
    }
};

TEST_P(ExaminationOf, HoldsOneCoilAgainstItsModel) {
    const auto pickup = history.add_pickup(neck());
    const auto only = visit(pickup, 10, "2026-03-02T10:00:00Z", {temperature(21.4), dc_resistance(6112.0)});
    auto correction = stored(only, 256 * 11, dc_resistance(6121.0));
    correction.corrects = history.readings_of(only.id).back().id;
    history.append_reading(correction);

    const auto examination = examination_of(history, pickup, only);
    EXPECT_EQ(examination.id, "00000000-0000-4000-8000-00000000000a");
    EXPECT_EQ(examination.coil_model, "six-rod-42");
    EXPECT_EQ(examination.pickup_type, "");
    EXPECT_THAT(examination.coils, IsEmpty());
    EXPECT_THAT(examination.readings, ElementsAre(temperature(21.4), dc_resistance(6121.0)));
    EXPECT_THAT(examination.earlier, IsEmpty());
}

TEST_P(ExaminationOf, HoldsSeveralCoilsAgainstTheirs) {
    const auto pickup = history.add_pickup(bridge());
    const auto only = visit(pickup, 10, "2026-03-02T10:00:00Z", {dc_resistance(4100.0, "slug")});
    const auto examination = examination_of(history, pickup, only);
    EXPECT_EQ(examination.coil_model, "");
    EXPECT_EQ(examination.pickup_type, "dual-coil-series");
    EXPECT_EQ(examination.coils,
              (std::map<std::string, std::string>{{"slug", "six-slug-42"}, {"screw", "six-screw-42"}}));
    EXPECT_THAT(examination.readings, ElementsAre(dc_resistance(4100.0, "slug")));
}

TEST_P(ExaminationOf, IsOfTheVisitAskedFor) {
    const auto pickup = history.add_pickup(neck());
    const auto first = visit(pickup, 10, "2026-03-02T10:00:00Z", {dc_resistance(6112.0)});
    const auto second = visit(pickup, 11, "2027-03-02T10:00:00Z", {dc_resistance(6120.0)});
    history.store_verdict(verdict(first, 30, "", true));
    history.store_verdict(verdict(second, 31, "", true));
    EXPECT_THAT(examination_of(history, pickup, first).readings, ElementsAre(dc_resistance(6112.0)));
    EXPECT_THAT(examination_of(history, pickup, first).earlier, IsEmpty());
    EXPECT_EQ(examination_of(history, pickup, second).earlier.size(), 1U);
}

TEST_P(ExaminationOf, BringsEarlierVisitsThatWereJudgedHealthy) {
    const auto pickup = history.add_pickup(neck());
    const auto unjudged = visit(pickup, 10, "2020-01-01T00:00:00Z", {dc_resistance(1.0)});
    const auto undecided = visit(pickup, 11, "2021-01-01T00:00:00Z", {dc_resistance(2.0)});
    const auto healthy = visit(pickup, 12, "2022-01-01T00:00:00Z", {temperature(19.0), dc_resistance(3.0)});
    const auto faulty = visit(pickup, 13, "2023-01-01T00:00:00Z", {dc_resistance(4.0)});
    const auto revoked = visit(pickup, 14, "2024-01-01T00:00:00Z", {dc_resistance(5.0)});
    const auto without_readings = visit(pickup, 15, "2025-01-01T00:00:00Z", {temperature(18.0)});
    const auto latest = visit(pickup, 16, "2026-01-01T00:00:00Z", {dc_resistance(6.0)});
    history.store_verdict(verdict(undecided, 30, "", true, false));
    history.store_verdict(verdict(healthy, 31, "", true));
    history.store_verdict(verdict(faulty, 32, "", false));
    history.store_verdict(verdict(revoked, 33, "", true));
    history.store_verdict(verdict(revoked, 34, "", false)); // a second look
    history.store_verdict(verdict(without_readings, 35, "", true));

    const auto earlier = examination_of(history, pickup, latest).earlier;
    ASSERT_EQ(earlier.size(), 1U);
    EXPECT_EQ(earlier[0].at, "2022-01-01T00:00:00.000Z");
    EXPECT_TRUE(earlier[0].healthy);
    EXPECT_THAT(earlier[0].readings, ElementsAre(temperature(19.0), dc_resistance(3.0)));
}

TEST_P(ExaminationOf, BringsOnlyTheCoilsThatWereHealthy) {
    const auto pickup = history.add_pickup(bridge());
    const auto former = visit(pickup, 10, "2026-01-01T00:00:00Z",
                              {temperature(21.0), dc_resistance(4100.0, "slug"),
                               dc_resistance(900.0, "screw"), dc_resistance(5000.0, "whole")});
    history.store_verdict(verdict(former, 30, "slug", true));
    history.store_verdict(verdict(former, 31, "screw", false));
    history.store_verdict(verdict(former, 32, "whole", false));
    const auto latest = visit(pickup, 11, "2027-01-01T00:00:00Z", {dc_resistance(4110.0, "slug")});
    const auto earlier = examination_of(history, pickup, latest).earlier;
    ASSERT_EQ(earlier.size(), 1U);
    EXPECT_THAT(earlier[0].readings, ElementsAre(temperature(21.0), dc_resistance(4100.0, "slug")));
}

TEST_P(ExaminationOf, ForgetsTheWindingThatWasReplaced) {
    const auto pickup = history.add_pickup(neck());
    const auto old = visit(pickup, 10, "2020-01-01T00:00:00Z", {dc_resistance(1.0)});
    const auto rewound = visit(pickup, 11, "2021-01-01T00:00:00Z", {dc_resistance(2.0)}, true);
    const auto after = visit(pickup, 12, "2022-01-01T00:00:00Z", {dc_resistance(3.0)});
    const auto latest = visit(pickup, 13, "2023-01-01T00:00:00Z", {dc_resistance(4.0)});
    unsigned n = 30;
    for (const auto& each : {old, rewound, after})
        history.store_verdict(verdict(each, n++, "", true));

    const auto earlier = examination_of(history, pickup, latest).earlier;
    ASSERT_EQ(earlier.size(), 2U);
    EXPECT_THAT(earlier[0].readings, ElementsAre(dc_resistance(2.0)));
    EXPECT_THAT(earlier[1].readings, ElementsAre(dc_resistance(3.0)));
    EXPECT_THAT(examination_of(history, pickup, rewound).earlier, IsEmpty());
}

COILWARD_FOR_ANY_STORE(ExaminationOf);

} // namespace
} // namespace coilward
