#include "any_store.h"
#include "examples.h"
#include "history/history_export.h"
#include "history/upkeep.h"

#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

/// Two benches that take over from each other. Whatever happened on either, and in whichever order they
/// merge, both end with the same history, to the byte of what they export.
namespace coilward {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using testing::Store;

struct Merge : testing::AnyStore {
    Store second{testing::Kind::sqlite};
    History here{store.address()};
    History there{second.address()};
    Pickup bridge = here.add_pickup(testing::bridge());

    /// Both have the pickup, as after an earlier merge.
    void share() { merge(there, here); }

    void edit(History& bench, unsigned n, const char* at, std::string Pickup::*field,
              const std::string& value) {
        Pickup pickup = *bench.pickup(bridge.id);
        pickup.*field = value;
        bench.edit_pickup(pickup, testing::id(n), testing::at(at));
    }

    /// What `one` exports after it has taken over from `other`, while both stay as they are.
    static std::string merged(const History& one, const History& other) {
        const Store place(testing::Kind::sqlite);
        History copy(place.address());
        merge(copy, one);
        merge(copy, other);
        EXPECT_THAT(copy.problems(), IsEmpty());
        return everything_to_json(copy);
    }
};

TEST_P(Merge, BringsWhatIsNewAndAgainNothing) {
    const auto neck = there.add_pickup(testing::neck());
    const auto visit = testing::visit_of(neck, 10, "2026-03-02T10:00:00Z");
    there.begin_visit(visit);
    there.append_reading(testing::stored(visit, 11, testing::dc_resistance(6112.0)));
    there.store_verdict(testing::verdict(visit, 12, "", true));
    const Attachment photo{.id = testing::id(13),
                           .pickup = neck.id,
                           .at = visit.at,
                           .name = "neck.jpg",
                           .media_type = "image/jpeg",
                           .note = "the break",
                           .content = content_hash("not really a photograph")};
    there.attach(photo, "not really a photograph");

    const Adopted first = merge(here, there);
    EXPECT_EQ(first.pickups, 1U);
    EXPECT_EQ(first.visits, 1U);
    EXPECT_EQ(first.readings, 1U);
    EXPECT_EQ(first.verdicts, 1U);
    EXPECT_EQ(first.attachments, 1U);
    EXPECT_EQ(here.pickup(neck.id)->number, 2) << "1 is given here already";
    EXPECT_THAT(here.attachments_of(neck.id), ElementsAre(photo));
    const auto before = everything_to_json(here);
    const Adopted again = merge(here, there);
    EXPECT_EQ(again.pickups + again.values + again.visits + again.readings + again.verdicts +
                  again.attachments,
              0U);
    EXPECT_EQ(everything_to_json(here), before);
}

TEST_P(Merge, OfOneFieldThatBothEditedKeepsBothValuesAndTheLaterHolds) {
    share();
    edit(here, 70, "2027-01-15T14:00:00Z", &Pickup::owner, "B. Nonymous");
    edit(there, 71, "2027-01-15T15:00:00Z", &Pickup::owner, "C. Nonymous");
    edit(there, 72, "2027-01-15T15:00:01Z", &Pickup::notes, "potted");
    const auto expected = merged(here, there);
    EXPECT_EQ(merged(there, here), expected);

    const Adopted adopted = merge(here, there);
    EXPECT_THAT(adopted.conflicts,
                ElementsAre("pickup 1: owner is \"B. Nonymous\" here and \"C. Nonymous\" there; "
                            "\"C. Nonymous\", given later, holds"));
    merge(there, here);
    EXPECT_EQ(everything_to_json(here), expected);
    EXPECT_EQ(everything_to_json(there), expected);
    EXPECT_THAT(
        here.changes_of(bridge.id),
        ElementsAre(
            PickupChange{testing::id(70), testing::at("2027-01-15T14:00:00Z"), "owner", "A. Nonymous"},
            PickupChange{testing::id(71), testing::at("2027-01-15T15:00:00Z"), "owner", "B. Nonymous"},
            PickupChange{testing::id(72), testing::at("2027-01-15T15:00:01Z"), "notes",
                         "weak since the house move"}));
    EXPECT_EQ(here.pickup(bridge.id)->notes, "potted");
}

TEST_P(Merge, OfOneReadingThatBothCorrectedKeepsBothAndTheLaterCounts) {
    const auto visit = testing::visit_of(bridge, 10, "2026-03-02T10:00:00Z");
    here.begin_visit(visit);
    const auto wrong = testing::stored(visit, 20, testing::dc_resistance(4100.0, "slug"));
    here.append_reading(wrong);
    share();
    auto early = testing::stored(visit, 21, testing::dc_resistance(4110.0, "slug"));
    early.corrects = wrong.id;
    auto late = testing::stored(visit, 22, testing::dc_resistance(4120.0, "slug"));
    late.corrects = wrong.id;
    here.append_reading(late);
    there.append_reading(early);
    const auto expected = merged(here, there);
    EXPECT_EQ(merged(there, here), expected);
    const Adopted adopted = merge(here, there);
    ASSERT_EQ(adopted.conflicts.size(), 1U);
    EXPECT_EQ(adopted.conflicts[0], "reading " + text_of(wrong.id) + ": corrected here by " +
                                        text_of(late.id) + " and there by " + text_of(early.id) + "; " +
                                        text_of(late.id) + " was made later");
    EXPECT_THAT(here.readings_of(visit.id), ElementsAre(wrong, early, late));
    EXPECT_THAT(current_readings(here.readings_of(visit.id)), ElementsAre(late));
}

TEST_P(Merge, OfDescriptionsThatNoEditExplainsKeepsBoth) {
    auto other = testing::bridge();
    other.owner = "Z. Nonymous";
    other.added_at += std::chrono::hours(1);
    there.add_pickup(other);
    const auto expected = merged(here, there);
    EXPECT_EQ(merged(there, here), expected);
    EXPECT_THAT(expected, ::testing::HasSubstr("A. Nonymous"));
    EXPECT_THAT(expected, ::testing::HasSubstr("Z. Nonymous"));
}

/// What people do at a bench, by dice.
class RandomBench {
public:
    RandomBench(History& history, std::mt19937& random, unsigned first_id)
        : history_(history), random_(random), next_id_(first_id) {}

    void act() {
        const auto pickups = history_.pickups();
        switch (pickups.empty() ? 0U : dice(6)) {
        case 0:
            return add();
        case 1:
            return visit(pickups[dice(pickups.size())]);
        case 2:
        case 3:
            return edit(pickups[dice(pickups.size())]);
        default:
            return correct(pickups[dice(pickups.size())]);
        }
    }

private:
    std::size_t dice(std::size_t sides) { return random_() % sides; }

    Id fresh() { return testing::id(next_id_++); }

    /// Few different moments, so that many fall together.
    Moment when() { return testing::at("2026-03-02T10:00:00Z") + std::chrono::seconds(dice(5)); }

    std::string word() { return std::string("word ") + static_cast<char>('a' + dice(4)); }

    void add() {
        auto pickup = testing::neck();
        pickup.id = fresh();
        pickup.owner = word();
        history_.add_pickup(pickup);
    }

    void edit(Pickup pickup) {
        pickup.*(dice(2) == 0 ? &Pickup::owner : &Pickup::notes) = word();
        if (dice(3) == 0) pickup.coils = {{"", "model-" + std::to_string(dice(3))}};
        history_.edit_pickup(pickup, fresh(), when());
    }

    void visit(const Pickup& pickup) {
        auto visit = testing::visit_of(pickup, next_id_++, "2026-03-02T10:00:00Z");
        visit.at = when();
        history_.begin_visit(visit);
        for (std::size_t n = dice(4); n > 0; --n)
            history_.append_reading(
                testing::stored(visit, next_id_++, testing::dc_resistance(6000.0 + double(dice(9)))));
        history_.store_verdict(testing::verdict(visit, next_id_++, "", dice(2) == 0));
    }

    void correct(const Pickup& pickup) {
        const auto visits = history_.visits_of(pickup.id);
        if (visits.empty()) return visit(pickup);
        const auto& visit = visits[dice(visits.size())];
        const auto current = current_readings(history_.readings_of(visit.id));
        if (current.empty()) return;
        auto correction = testing::stored(visit, next_id_++, testing::dc_resistance(5000.0));
        correction.at = when();
        correction.corrects = current[dice(current.size())].id;
        // Each bench corrects a reading once; one whose line goes on elsewhere is left alone.
        for (const auto& reading : history_.readings_of(visit.id))
            if (reading.corrects == correction.corrects) return;
        history_.append_reading(correction);
    }

    History& history_;
    std::mt19937& random_;
    unsigned next_id_;
};

TEST_P(Merge, OfRandomBenchesIsTheSameInEitherOrder) {
    std::mt19937 random(20261125);
    RandomBench one(here, random, 1000);
    RandomBench other(there, random, 20000);
    for (int round = 0; round < 12; ++round) {
        for (int n = 0; n < 12; ++n) {
            one.act();
            other.act();
        }
        const auto expected = merged(here, there);
        ASSERT_EQ(merged(there, here), expected) << "round " << round;
        // One bench takes over at once, the other a round later, so that they drift apart and meet again.
        merge(round % 2 == 0 ? here : there, round % 2 == 0 ? there : here);
        ASSERT_EQ(everything_to_json(round % 2 == 0 ? here : there), expected) << "round " << round;
    }
    merge(here, there);
    merge(there, here);
    EXPECT_EQ(everything_to_json(here), everything_to_json(there));
    EXPECT_THAT(here.problems(), IsEmpty());
}

COILWARD_FOR_ANY_STORE(Merge);

} // namespace
} // namespace coilward
