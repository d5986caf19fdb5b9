#include "any_store.h"
#include "examples.h"
#include "refusal.h"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::bridge;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using testing::neck;
using testing::refusal;
using testing::verdict;
using testing::visit_of;

struct Visits : testing::AnyStore {
    History history{store.address()};
    Pickup pickup = history.add_pickup(bridge());
};

TEST_P(Visits, ComeBackOldestFirstAndOnlyThePickupsOwn) {
    const auto other = history.add_pickup(neck());
    auto later = visit_of(pickup, 10, "2027-03-02T10:00:00.999Z");
    later.stage = "after rewinding";
    later.rewound = true;
    later.notes = "the finish lead was loose";
    const auto earlier = visit_of(pickup, 11, "2026-03-02T10:00:00Z");
    const auto of_other = visit_of(other, 12, "2026-06-02T10:00:00Z");
    for (const auto& visit : {later, of_other, earlier})
        history.begin_visit(visit);
    const History again(store.address());
    EXPECT_THAT(again.visits_of(pickup.id), ElementsAre(earlier, later));
    EXPECT_THAT(again.visits_of(other.id), ElementsAre(of_other));
}

TEST_P(Visits, BelongToAPickup) {
    EXPECT_EQ(
        refusal<HistoryError>([&] { history.begin_visit(visit_of(neck(), 10, "2026-03-02T10:00:00Z")); }),
        store.place() + ": there is no pickup 00000000-0000-4000-8000-000000000002; it may be in another "
                        "data folder: choose it with --data DIR");
    auto without_id = visit_of(pickup, 10, "2026-03-02T10:00:00Z");
    without_id.id = Id{};
    EXPECT_EQ(refusal<HistoryError>([&] { history.begin_visit(without_id); }),
              store.place() + ": a visit without an id cannot be kept");
    EXPECT_THAT(history.visits_of(pickup.id), IsEmpty());
}

TEST_P(Visits, KeepTheirVerdicts) {
    const auto visit = visit_of(pickup, 10, "2026-03-02T10:00:00Z");
    const auto other = visit_of(pickup, 11, "2026-03-03T10:00:00Z");
    history.begin_visit(visit);
    history.begin_visit(other);
    auto slug = verdict(visit, 30, "slug", true);
    slug.probability = 1.0 / 3.0;
    slug.document = "{\"notes\": [\"± 1 Ω\"]}";
    const auto screw = verdict(visit, 31, "screw", false, false);
    const auto of_other = verdict(other, 32, "", false);
    for (const auto& each : {screw, of_other, slug})
        history.store_verdict(each);
    const History again(store.address());
    EXPECT_THAT(again.verdicts_of(visit.id), ElementsAre(slug, screw));
    EXPECT_THAT(again.verdicts_of(other.id), ElementsAre(of_other));
}

TEST_P(Visits, RefuseAVerdictThatIsNoProbability) {
    const auto visit = visit_of(pickup, 10, "2026-03-02T10:00:00Z");
    history.begin_visit(visit);
    const std::pair<double, const char*> numbers[] = {{-0.25, "-0.25"}, {1.5, "1.5"}, {std::nan(""), "nan"}};
    for (const auto& [number, word] : numbers) {
        auto bad = verdict(visit, 30, "", true);
        bad.probability = number;
        EXPECT_EQ(refusal<HistoryError>([&] { history.store_verdict(bad); }),
                  store.place() + ": a verdict with the probability " + word +
                      " cannot be kept; it must be 0 to 1");
    }
    EXPECT_THAT(history.verdicts_of(visit.id), IsEmpty());
}

COILWARD_FOR_ANY_STORE(Visits);

} // namespace
} // namespace coilward
