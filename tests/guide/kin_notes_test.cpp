// An examination beside the sound coils of the instrument's other pickups.

#include "guide/kin_notes.h"
#include "guide/scripted_bench.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Workshop;

/// The pickup on the bench has a sound neighbour in its instrument.
struct Neighbours : Workshop {
    Neighbours() {
        coil.pickup.owner = "A. Nonymous";
        coil.pickup.instrument = "red guitar";
        history.edit_pickup(coil.pickup, random_id(), clock.now());
        Pickup middle = coil.pickup;
        middle.id = random_id();
        middle.name = "Middle";
        middle = history.add_pickup(middle);
        const Visit visit{.id = random_id(), .pickup = middle.id, .at = clock.now()};
        history.begin_visit(visit);
        // What sound_coil() would measure, by hand: DC resistance and inductance of another such coil.
        for (const Reading& reading :
             {Reading{.quantity = Quantity::temperature, .value = 20.0, .standard_uncertainty = 0.5},
              Reading{.quantity = Quantity::dc_resistance, .value = 6300.0, .standard_uncertainty = 6.0},
              Reading{.quantity = Quantity::inductance,
              .circuit = Circuit::series,
              .frequency_hz = 1000.0,
              .value = 2.44,
              .standard_uncertainty = 0.01}})
            history.append_reading(
                {.id = random_id(), .visit = visit.id, .at = clock.now(), .reading = reading});
        history.store_verdict({.id = random_id(),
                               .visit = visit.id,
                               .at = clock.now(),
                               .fault = "healthy",
                               .probability = 0.98,
                               .decided = true,
                               .healthy = true,
                               .document = "{}"});
        attach("dmm-scpi", "dmm");
        attach("lcr-fetch-ab", "lcr");
    }
};

/// The width of what is expected of the DC resistance, in ohm.
double expected_width(const Diagnosis& diagnosis) {
    for (const Comparison& comparison : diagnosis.comparisons)
        if (comparison.reading.quantity == Quantity::dc_resistance)
            return comparison.expected.high - comparison.expected.low;
    ADD_FAILURE() << "no DC resistance was read";
    return 0.0;
}

TEST(KinNotes, OfAnExaminationAreKeptWithItsVerdictUnlessItStandsAlone) {
    const struct {
        const char* what;
        bool alone, rewound, beside;
    } rows[] = {
        {"by itself", false, false, true},
        {"alone", true, false, false},
        {"a new winding, which never was of that set", false, true, false},
    };

    Neighbours alone;
    alone.coil.alone = true;
    const double width_alone =
        expected_width(alone.examine({{.quantity = Quantity::temperature, .value = 20.0}}).diagnosis);
    for (const auto& row : rows) {
        Neighbours shop;
        shop.coil.alone = row.alone;
        shop.coil.visit.rewound = row.rewound;
        const Diagnosis diagnosis =
            shop.examine({{.quantity = Quantity::temperature, .value = 20.0}}).diagnosis;
        const auto says =
            Contains(HasSubstr("held beside Middle (pickup 2), of the same owner and instrument"));
        const std::string kept = shop.history.verdicts_of(shop.coil.visit.id).back().document;
        if (row.beside) {
            EXPECT_THAT(diagnosis.notes, says) << row.what;
            EXPECT_THAT(kept, HasSubstr("held beside Middle (pickup 2)")) << row.what;
            EXPECT_LT(expected_width(diagnosis), 0.95 * width_alone) << row.what;
        } else {
            EXPECT_THAT(diagnosis.notes, Not(says)) << row.what;
            EXPECT_THAT(kept, Not(HasSubstr("held beside"))) << row.what;
            EXPECT_DOUBLE_EQ(expected_width(diagnosis), width_alone) << row.what;
        }
    }
}

TEST(KinNotes, OfAPickupStandWithTheCoilThatTheyConcern) {
    PickupDiagnosis pickup;
    pickup.coils = {{"slug", {}}, {"screw", {}}};
    note_kin(pickup, {{.coil = {.coil = "screw"}, .number = 3, .pickup = "Neck"}});
    EXPECT_TRUE(pickup.coils[0].second.notes.empty());
    EXPECT_THAT(pickup.coils[1].second.notes, Contains(HasSubstr("held beside Neck (pickup 3)")));
    EXPECT_TRUE(pickup.whole.notes.empty());
}

} // namespace
} // namespace coilward
