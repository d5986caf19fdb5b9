// Which coils of other pickups a pickup is held beside.

#include "any_store.h"
#include "examples.h"
#include "history/kin.h"

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

Reading warmed(Reading reading) {
    reading.handling = Handling::warmed;
    return reading;
}

struct KinOf : testing::AnyStore {
    History history{store.address()};
    unsigned next = 100; ///< id of a reading, verdict or visit

    Pickup add(Pickup pickup, unsigned n, const std::string& name) {
        pickup.id = testing::id(n);
        pickup.name = name;
        return history.add_pickup(pickup);
    }

    Visit visit(const Pickup& pickup, const char* when, const std::vector<Reading>& readings,
                bool rewound = false) {
        auto made = visit_of(pickup, next++, when);
        made.rewound = rewound;
        history.begin_visit(made);
        for (const Reading& reading : readings)
            history.append_reading(stored(made, next++, reading));
        return made;
    }

    /// A visit on which the coil was judged sound.
    Visit sound(const Pickup& pickup, const char* when, const std::vector<Reading>& readings,
                const std::string& coil = "", bool rewound = false) {
        const Visit made = visit(pickup, when, readings, rewound);
        history.store_verdict(verdict(made, next++, coil, true));
        return made;
    }

    /// A visit that is not judged yet.
    Visit today(const Pickup& pickup, bool rewound = false) {
        return visit(pickup, "2026-05-01T10:00:00Z", {dc_resistance(6112.0)}, rewound);
    }
};

TEST_P(KinOf, IsTheNewestSoundVisitOfANamedPickup) {
    const auto examined = history.add_pickup(neck());
    const auto other = add(neck(), 3, "Neck, its neighbour");
    EXPECT_THAT(kin_of(history, other, Kinship::set, examined), IsEmpty());
    sound(other, "2022-01-01T00:00:00Z", {temperature(19.0), dc_resistance(6001.0)});
    sound(other, "2023-01-01T00:00:00Z", {dc_resistance(6002.0)});
    sound(other, "2023-06-01T00:00:00Z", {temperature(18.0)}); // tells nothing of the coil
    const auto faulty = visit(other, "2024-01-01T00:00:00Z", {dc_resistance(9000.0)});
    history.store_verdict(verdict(faulty, next++, "", false));

    const auto kin = kin_of(history, other, Kinship::twin, examined);
    ASSERT_EQ(kin.size(), 1U);
    EXPECT_EQ(kin[0].coil.as, Kinship::twin);
    EXPECT_EQ(kin[0].coil.coil_model, "six-rod-42");
    EXPECT_TRUE(kin[0].coil.healthy);
    EXPECT_THAT(kin[0].coil.readings, ElementsAre(dc_resistance(6002.0)));
    EXPECT_EQ(kin[0].known_by, KnownBy::person);
    EXPECT_EQ(kin[0].number, other.number);
}

TEST_P(KinOf, ANamedPickupIsOnlyTheCoilsThatBothHave) {
    const auto examined = history.add_pickup(neck());
    const auto other = add(bridge(), 3, "Bridge, its neighbour");
    sound(other, "2022-01-01T00:00:00Z", {dc_resistance(4100.0, "slug")}, "slug");
    EXPECT_THAT(kin_of(history, other, Kinship::twin, examined), IsEmpty());
    const auto kin = kin_of(history, other, Kinship::twin, other);
    ASSERT_EQ(kin.size(), 1U);
    EXPECT_EQ(kin[0].coil.coil, "slug");
    EXPECT_THAT(kin[0].coil.readings, ElementsAre(dc_resistance(4100.0)));
}

TEST_P(KinOf, LeavesOutWhatWasReadOfAHandledCoil) {
    const auto examined = history.add_pickup(neck());
    const auto other = add(neck(), 3, "Neck, its neighbour");
    sound(other, "2022-01-01T00:00:00Z",
          {dc_resistance(6001.0),
           warmed(dc_resistance(6300.0)),
           {.quantity = Quantity::magnet_pole, .polarity = Polarity::as_expected}});
    const auto kin = kin_of(history, other, Kinship::set, examined);
    ASSERT_EQ(kin.size(), 1U);
    EXPECT_THAT(kin[0].coil.readings, ElementsAre(dc_resistance(6001.0)));
}

TEST_P(KinOf, ByInstrumentHasTheSameOwnerInstrumentCoilAndModel) {
    const Pickup like = neck();

    const struct {
        const char* what;
        std::string owner = "A. Nonymous";
        std::string instrument = "red guitar, 6 strings";
        std::vector<PickupCoil> coils{{"", "six-rod-42"}};
        bool is_kin = false;
    } rows[] = {
        {.what = "the same", .is_kin = true},
        {.what = "another owner", .owner = "B. Nonymous"},
        {.what = "no owner", .owner = ""},
        {.what = "another instrument", .instrument = "blue guitar"},
        {.what = "no instrument", .instrument = ""},
        {.what = "owner in other letters", .owner = "a. nonymous"},
        {.what = "instrument with a blank more", .instrument = "red guitar, 6 strings "},
        {.what = "instrument that the other's begins with", .instrument = "red guitar"},
        {.what = "another model", .coils = {{"", "hot-coil-44"}}},
        {.what = "the model of a coil with a name", .coils = {{"slug", "six-rod-42"}}},
        {.what = "no coil", .coils = {}},
    };

    const auto examined = history.add_pickup(like);
    const Visit visit = today(examined);
    std::vector<std::string> expected;
    unsigned n = 10;
    for (const auto& row : rows) {
        Pickup other = like;
        other.owner = row.owner;
        other.instrument = row.instrument;
        other.coils = row.coils;
        other = add(other, n++, row.what);
        const std::string coil = row.coils.empty() ? "" : row.coils.front().name;
        sound(other, "2022-01-01T00:00:00Z", {dc_resistance(6001.0, coil)}, coil);
        if (row.is_kin) expected.emplace_back(row.what);
    }
    std::vector<std::string> found;
    for (const Kin& kin : kin_by_instrument(history, examined, visit)) {
        found.push_back(kin.pickup);
        EXPECT_EQ(kin.coil.as, Kinship::set) << "twins are a person's word only";
        EXPECT_EQ(kin.known_by, KnownBy::instrument);
    }
    EXPECT_EQ(found, expected);
}

TEST_P(KinOf, ByInstrumentNeedsAnOwnerAndAnInstrumentToBeNamed) {
    const struct {
        const char* what;
        std::string owner, instrument;
    } rows[] = {
        {"no instrument", "A. Nonymous", ""},
        {"no owner", "", "red guitar, 6 strings"},
        {"neither", "", ""},
    };

    unsigned n = 10;
    for (const auto& row : rows) {
        Pickup both = neck();
        both.owner = row.owner;
        both.instrument = row.instrument;
        const auto examined = add(both, n++, row.what);
        const auto other = add(both, n++, "Middle");
        sound(other, "2022-01-01T00:00:00Z", {dc_resistance(6001.0)});
        EXPECT_THAT(kin_by_instrument(history, examined, today(examined)), IsEmpty()) << row.what;
    }
}

TEST_P(KinOf, ByInstrumentIsOfEachCoilItsOwn) {
    const auto examined = history.add_pickup(bridge());
    const auto other = add(bridge(), 3, "Neck");
    const auto both = visit(other, "2022-01-01T00:00:00Z",
                            {temperature(21.0), dc_resistance(4100.0, "slug"), dc_resistance(4200.0, "screw"),
                             dc_resistance(8300.0, "whole")});
    history.store_verdict(verdict(both, next++, "slug", true));
    history.store_verdict(verdict(both, next++, "screw", false));
    history.store_verdict(verdict(both, next++, "whole", true));
    const auto kin = kin_by_instrument(history, examined, today(examined));
    ASSERT_EQ(kin.size(), 1U);
    EXPECT_EQ(kin[0].coil.coil, "slug");
    EXPECT_THAT(kin[0].coil.readings, ElementsAre(temperature(21.0), dc_resistance(4100.0)));
}

TEST_P(KinOf, ByInstrumentIsSoundDecidedAndRead) {
    const auto examined = history.add_pickup(neck());
    const Visit now = today(examined);

    const struct {
        const char* what;
        std::vector<std::pair<bool, bool>> verdicts; ///< healthy, decided
        bool is_kin;
    } rows[] = {
        {"sound", {{true, true}}, true},
        {"not judged", {}, false},
        {"not decided", {{true, false}}, false},
        {"faulty", {{false, true}}, false},
        {"sound, then on a second look not", {{true, true}, {false, true}}, false},
        {"faulty, then on a second look sound", {{false, true}, {true, true}}, true},
    };

    unsigned n = 10;
    for (const auto& row : rows) {
        const auto other = add(neck(), n++, row.what);
        const auto one = visit(other, "2022-01-01T00:00:00Z", {dc_resistance(6001.0)});
        for (const auto& [healthy, decided] : row.verdicts)
            history.store_verdict(verdict(one, next++, "", healthy, decided));
        const auto kin = kin_by_instrument(history, examined, now);
        EXPECT_EQ(std::ranges::count(kin, row.what, &Kin::pickup), row.is_kin ? 1 : 0) << row.what;
    }
}

/// A visit of the other pickup, in the order of the table.
struct OtherVisit {
    const char* when;
    double ohm;
    bool sound;
    bool rewound = false;
};

TEST_P(KinOf, ByInstrumentIsOfTheWindingThatItCameWith) {
    const struct {
        const char* what;
        std::vector<OtherVisit> visits;
        std::optional<double> ohm; ///< of the visit that is used
    } rows[] = {
        {"never rewound", {{"2022-01-01T00:00:00Z", 6001.0, true}}, 6001.0},
        {"judged later than the examined coil's visit", {{"2027-01-01T00:00:00Z", 6002.0, true}}, 6002.0},
        {"rewound, and sound since", {{"2022-01-01T00:00:00Z", 6003.0, true, true}}, std::nullopt},
        {"sound, then rewound",
         {{"2022-01-01T00:00:00Z", 6004.0, true}, {"2023-01-01T00:00:00Z", 6400.0, true, true}},
         6004.0},
        {"sound, rewound, and examined again",
         {{"2022-01-01T00:00:00Z", 6005.0, true},
          {"2023-01-01T00:00:00Z", 6400.0, true, true},
          {"2024-01-01T00:00:00Z", 6401.0, true}},
         6005.0},
        {"broken, then rewound",
         {{"2022-01-01T00:00:00Z", 9e6, false}, {"2023-01-01T00:00:00Z", 6400.0, true, true}},
         std::nullopt},
    };

    unsigned n = 10;
    for (const auto& row : rows) {
        Pickup like = neck();
        like.instrument = row.what;
        const auto examined = add(like, n++, "Neck");
        const auto other = add(like, n++, "Middle");
        for (const OtherVisit& each : row.visits) {
            if (each.sound)
                sound(other, each.when, {dc_resistance(each.ohm)}, "", each.rewound);
            else
                visit(other, each.when, {dc_resistance(each.ohm)}, each.rewound);
        }
        const auto kin = kin_by_instrument(history, examined, today(examined));
        ASSERT_EQ(kin.size(), row.ohm ? 1U : 0U) << row.what;
        if (!row.ohm) continue;
        EXPECT_THAT(kin[0].coil.readings, ElementsAre(dc_resistance(*row.ohm))) << row.what;
    }
}

TEST_P(KinOf, ByInstrumentIsNoneForANewWinding) {
    const auto examined = history.add_pickup(neck());
    sound(add(neck(), 3, "Middle"), "2022-01-01T00:00:00Z", {dc_resistance(6001.0)});
    const Visit before = visit(examined, "2025-01-01T00:00:00Z", {dc_resistance(9e6)});
    const Visit rewound = visit(examined, "2025-02-01T00:00:00Z", {dc_resistance(6400.0)}, true);
    const Visit after = visit(examined, "2025-03-01T00:00:00Z", {dc_resistance(6401.0)});
    EXPECT_EQ(kin_by_instrument(history, examined, before).size(), 1U);
    EXPECT_THAT(kin_by_instrument(history, examined, rewound), IsEmpty());
    EXPECT_THAT(kin_by_instrument(history, examined, after), IsEmpty());

    const auto fresh = add(neck(), 4, "Bridge");
    Visit not_begun = visit_of(fresh, 5, "2026-05-01T10:00:00Z");
    EXPECT_EQ(kin_by_instrument(history, fresh, not_begun).size(), 1U);
    not_begun.rewound = true;
    EXPECT_THAT(kin_by_instrument(history, fresh, not_begun), IsEmpty());
    Visit next_of_examined = visit_of(examined, 6, "2026-05-01T10:00:00Z");
    EXPECT_THAT(kin_by_instrument(history, examined, next_of_examined), IsEmpty());
}

TEST_P(KinOf, FollowsAnEditOfTheInstrument) {
    const auto examined = history.add_pickup(neck());
    auto other = add(neck(), 3, "Middle");
    sound(other, "2022-01-01T00:00:00Z", {dc_resistance(6001.0)});
    const Visit now = today(examined);
    EXPECT_EQ(kin_by_instrument(history, examined, now).size(), 1U);
    other.instrument = "red guitar, 6 strings; not the pickup that it came with";
    history.edit_pickup(other, testing::id(60), testing::at("2026-05-02T10:00:00Z"));
    EXPECT_THAT(kin_by_instrument(history, examined, now), IsEmpty());
}

TEST(Kin, SaysWhereItComesFrom) {
    const struct {
        Kinship as;
        KnownBy known_by;
        const char* says;
    } rows[] = {
        {Kinship::set, KnownBy::instrument,
         "held beside Middle (pickup 3), of the same owner and instrument, as it was judged sound on "
         "2022-01-01; judge it alone if the two were not made as a set"},
        {Kinship::set, KnownBy::person,
         "held beside Middle (pickup 3), said to be of its set, as it was judged sound on 2022-01-01"},
        {Kinship::twin, KnownBy::person,
         "held beside Middle (pickup 3), said to be its twin, as it was judged sound on 2022-01-01"},
    };

    for (const auto& row : rows)
        EXPECT_EQ(in_words({.coil = {.as = row.as},
                            .known_by = row.known_by,
                            .number = 3,
                            .pickup = "Middle",
                            .at = testing::at("2022-01-01T12:00:00Z")}),
                  row.says);
}

COILWARD_FOR_ANY_STORE(KinOf);

} // namespace
} // namespace coilward
