#include "any_store.h"
#include "examples.h"
#include "history/pickup_key.h"
#include "refusal.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::at;
using testing::bridge;
using ::testing::ElementsAre;
using testing::id;
using ::testing::IsEmpty;
using testing::neck;
using testing::refusal;

struct Pickups : testing::AnyStore {
    History history{store.address()};

    Pickup add_named(unsigned n, const std::string& name) {
        return history.add_pickup({.id = id(n),
                                   .number = 0,
                                   .added_at = at("2026-03-02T09:00:00Z"),
                                   .name = name,
                                   .owner = "",
                                   .instrument = "",
                                   .pickup_type = "",
                                   .coils = {},
                                   .notes = ""});
    }
};

TEST_P(Pickups, AreNumberedFromOneAndKeptWhole) {
    Pickup first = bridge();
    first.number = 99; // not looked at
    const auto kept_first = history.add_pickup(first);
    const auto kept_second = history.add_pickup(neck());
    first.number = 1;
    Pickup second = neck();
    second.number = 2;
    EXPECT_EQ(kept_first, first);
    EXPECT_EQ(kept_second, second);
    EXPECT_EQ(History(store.address()).pickups(), (std::vector{first, second}));
    EXPECT_EQ(history.pickup(2), second);
    EXPECT_EQ(history.pickup(3), std::nullopt);
}

TEST_P(Pickups, AreFoundByWhatIsWrittenOfThem) {
    const auto first = history.add_pickup(bridge());
    const auto second = history.add_pickup(neck());
    EXPECT_THAT(history.pickups("HOUSE move"), ElementsAre(first));
    EXPECT_THAT(history.pickups("nonym"), ElementsAre(first, second));
    EXPECT_THAT(history.pickups("6 strings"), ElementsAre(first, second));
    EXPECT_THAT(history.pickups("dual-coil"), ElementsAre(first));
    EXPECT_THAT(history.pickups("six-screw"), ElementsAre(first));
    EXPECT_THAT(history.pickups("neck"), ElementsAre(second));
    EXPECT_THAT(history.pickups("%"), IsEmpty());
    EXPECT_THAT(history.pickups("guitarA."), IsEmpty()) << "a match runs from one field into the next";
}

TEST_P(Pickups, KeepTheirFormerValues) {
    auto pickup = history.add_pickup(bridge());
    pickup.owner = "B. Nonymous";
    pickup.coils = {{"slug", "six-slug-43"}, {"screw", "six-screw-42"}};
    EXPECT_EQ(history.edit_pickup(pickup, id(70), at("2027-01-01T00:00:00Z")), 2U);
    EXPECT_EQ(history.pickup(1), pickup);

    pickup.name = "Bridge";
    pickup.instrument = "blue guitar";
    pickup.pickup_type = "dual-coil-parallel";
    pickup.notes = "";
    EXPECT_EQ(history.edit_pickup(pickup, id(71), at("2028-01-01T00:00:00Z")), 4U);
    EXPECT_EQ(history.edit_pickup(pickup, id(72), at("2029-01-01T00:00:00Z")), 0U);
    EXPECT_EQ(history.pickup(1), pickup);

    const auto first = at("2027-01-01T00:00:00Z");
    const auto second = at("2028-01-01T00:00:00Z");
    EXPECT_THAT(history.changes_of(pickup.id),
                ElementsAre(PickupChange{id(70), first, "owner", "A. Nonymous"},
                            PickupChange{id(70), first, "coils", "slug=six-slug-42 screw=six-screw-42"},
                            PickupChange{id(71), second, "name", "Bridge, red guitar"},
                            PickupChange{id(71), second, "instrument", "red guitar, 6 strings"},
                            PickupChange{id(71), second, "pickup_type", "dual-coil-series"},
                            PickupChange{id(71), second, "notes", "weak since the house move"}));
    EXPECT_EQ(pickup_named(history, "bridge"), pickup) << "the slug follows the name";
    EXPECT_THAT(history.pickups("Blue Guitar"), ElementsAre(pickup)) << "so does the search";
    EXPECT_THAT(history.pickups("red guitar"), IsEmpty());
}

TEST_P(Pickups, AreRefusedWithoutWhatTheyNeed) {
    const auto file = store.place();
    Pickup nameless = bridge();
    nameless.name = " - ";
    EXPECT_EQ(refusal<HistoryError>([&] { history.add_pickup(nameless); }),
              file + ": a pickup needs a name with a letter or digit in it, not \" - \"");
    Pickup twins = bridge();
    twins.coils = {{"slug", "six-slug-42"}, {"slug", "six-screw-42"}};
    EXPECT_EQ(
        refusal<HistoryError>([&] { history.add_pickup(twins); }),
        file + ": two coils of the pickup \"Bridge, red guitar\" are called \"slug\"; name each differently");
    Pickup without_id = bridge();
    without_id.id = Id{};
    EXPECT_EQ(refusal<HistoryError>([&] { history.add_pickup(without_id); }),
              file + ": a pickup without an id cannot be kept");
    EXPECT_EQ(refusal<HistoryError>([&] { history.edit_pickup(neck(), id(70), at("2027-01-01T00:00:00Z")); }),
              file + ": there is no pickup 00000000-0000-4000-8000-000000000002; it may be in another data "
                     "folder: choose "
                     "it with --data DIR");
    EXPECT_THAT(history.pickups(), IsEmpty());
}

TEST(Slug, SimplifiesAName) {
    const std::pair<const char*, const char*> examples[] = {
        {"Bridge, red guitar", "bridge-red-guitar"},
        {"  No. 7 / B  ", "no-7-b"},
        {"Brücke", "brücke"},
        {"---", ""},
        {"already-a-slug", "already-a-slug"},
    };
    for (const auto& [name, slug] : examples)
        EXPECT_EQ(slug_of(name), slug) << name;
}

TEST_P(Pickups, AnswerToNumberNameAndBeginning) {
    const auto first = add_named(1, "Bridge, red guitar");
    const auto second = add_named(2, "Neck, red guitar");
    const auto third = add_named(3, "Neck");
    const auto fourth = add_named(4, "2");
    EXPECT_EQ(pickup_named(history, "1"), first);
    EXPECT_EQ(pickup_named(history, "Bridge, red guitar"), first);
    EXPECT_EQ(pickup_named(history, "bridge-red-guitar"), first);
    EXPECT_EQ(pickup_named(history, "bri"), first);
    EXPECT_EQ(pickup_named(history, "neck"), third) << "the whole name goes before a beginning";
    EXPECT_EQ(pickup_named(history, "neck-"), third) << "a slug has no dash at its end";
    EXPECT_EQ(pickup_named(history, "neck-r"), second);
    EXPECT_EQ(pickup_named(history, "2"), second) << "a number goes before a name";
    EXPECT_EQ(pickup_named(history, "4"), fourth);
}

TEST_P(Pickups, ThatAreNotFoundOrNotOneAreNamed) {
    const auto none = [&](const std::string& key) {
        return "pickup \"" + key + "\": " + store.place() +
               " has no such number or name; coilward pickup list shows them";
    };
    EXPECT_EQ(refusal<BadPickupKey>([&] { pickup_named(history, "7"); }), none("7"));
    EXPECT_EQ(refusal<BadPickupKey>([&] { pickup_named(history, "neck"); }), none("neck"));
    add_named(1, "Neck");
    EXPECT_EQ(refusal<BadPickupKey>([&] { pickup_named(history, ""); }), none(""));
    EXPECT_EQ(refusal<BadPickupKey>([&] { pickup_named(history, "***"); }), none("***"));
    EXPECT_EQ(refusal<BadPickupKey>([&] { pickup_named(history, "-1"); }), none("-1"));

    add_named(2, "NECK");
    EXPECT_EQ(refusal<BadPickupKey>([&] { pickup_named(history, "neck"); }),
              "pickup \"neck\" may be any of 1 (Neck), 2 (NECK); say its number");
    for (unsigned n = 3; n <= 10; ++n)
        add_named(n, "Neck no. " + std::to_string(n));
    EXPECT_EQ(
        refusal<BadPickupKey>([&] { pickup_named(history, "ne"); }),
        "pickup \"ne\" may be any of 1 (Neck), 2 (NECK), 3 (Neck no. 3), 4 (Neck no. 4), 5 (Neck no. 5), "
        "6 (Neck no. 6), 7 (Neck no. 7), 8 (Neck no. 8) and 2 more; say its number");
}

COILWARD_FOR_ANY_STORE(Pickups);

} // namespace
} // namespace coilward
