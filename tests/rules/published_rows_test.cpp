#include "rules/rules.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// A published measurement. `row` is its id in the collected measurements; the source's number is in it.
/// Halves are of whole pickups of two like coils.
struct Published {
    const char* row;
    const char* model;
    double dc_resistance_ohm; ///< 0 where none was published
    double turns = 0.0;
    double inductance_h = 0.0;
    double self_capacitance_f = 0.0;
};

// S01 table of early production averages; S02 magazine column, example of a data sheet (2.9 H at 120 Hz); S04
// players' forum, 22 Feb 2019, measured; S05 players' forum, measured; S08, S09 typical values from a
// designer; S11 musicians' forum, measured; S14 maker's answers to questions; S16 magazine column on a
// rewind; S17 repair-supply trade column, 28 Jun 2018; S18 electronics forum; S21 shop's road test; S22 forum
// quoting a maker's newsletter; S23 seller; S24 guitar encyclopedia; S25 maker's blog; S32 builder's page;
// S34 players' forum; S39 bass players' forum; S42 repairer's notes; S43 winder's blog; S44 repairer's blog;
// S47 encyclopedia page; S48 players' forum; S54 French pickup-winding page; S55 builder's page; S56
// magazine, 23 Aug 2019.
const Published sound_coils[] = {
    {"s01-10", "six-rod-42", 5760, 7956},
    {"s01-11", "six-rod-42", 5890, 7844},
    {"s01-12", "six-rod-42", 5980, 8012},
    {"s01-13", "six-rod-42", 6020, 8105},
    {"s01-14", "six-rod-42", 6200, 8350},
    {"s01-15", "six-rod-42", 5950, 7925},
    {"s01-16", "six-rod-42", 6330, 8293},
    {"s01-17", "six-rod-42", 6190, 8119},
    {"s01-18", "six-rod-42", 6220, 8220},
    {"s01-19", "six-rod-42", 6370, 8319},
    {"s01-20", "six-rod-42", 6250, 7980},
    {"s01-21", "six-rod-42", 5800, 7626},
    {"s01-22", "six-rod-42", 5760, 7630},
    {"s01-23", "six-rod-42", 5880, 7656},
    {"s02-01", "six-rod-42", 6500, 7600, 2.9},
    {"s08-01", "six-rod-42", 0, 0, 2.3},
    {"s09-01", "six-rod-42", 0, 0, 2.4},
    {"s17-01", "six-rod-42", 6300},
    {"s17-02", "six-rod-42", 5700},
    {"s18-01", "six-rod-42", 5900},
    {"s18-02", "six-rod-42", 5900},
    {"s18-03", "six-rod-42", 6100},
    {"s54-01", "six-rod-42", 5900},
    {"s54-02", "six-rod-42", 7000},
    {"s55-01", "six-rod-42", 6200},
    {"s14-01", "lead-rod-42", 6000, 7875},
    {"s14-02", "lead-rod-42", 6000, 7945},
    {"s01-24", "lead-rod-43", 8000, 8000},
    {"s01-05", "wide-bar-42", 8000, 10000},
    {"s21-01", "wide-bar-42", 8900},
    {"s24-01", "wide-bar-42", 7000},
    {"s24-02", "wide-bar-42", 8500},
    {"s24-03", "wide-bar-42", 7000},
    {"s24-04", "wide-bar-42", 8000},
    {"s56-01", "wide-bar-42", 7800},
    {"s56-02", "wide-bar-42", 8400},
    {"s56-03", "wide-bar-42", 9000},
    {"s01-03", "screw-coil-42", 4000, 5000},
    {"s01-04", "screw-coil-42", 4000, 5000},
    {"s01-03", "slug-coil-42", 4000, 5000},
    {"s01-04", "slug-coil-42", 4000, 5000},
    {"s05-02", "screw-coil-42", 0, 0, 1.7},
    {"s22-01, half", "screw-coil-42", 7200 / 2.0, 5000},
    {"s22-02, half", "screw-coil-42", 8800 / 2.0, 5000},
    {"s22-01, half", "slug-coil-42", 7200 / 2.0, 5000},
    {"s22-02, half", "slug-coil-42", 8800 / 2.0, 5000},
    {"s23-01, half", "slug-coil-42", 7870 / 2.0},
    {"s23-02, half", "slug-coil-42", 7970 / 2.0},
    {"s25-01, half", "slug-coil-42", 8100 / 2.0},
    {"s43-02, half", "slug-coil-42", 7000 / 2.0},
    {"s43-03, half", "slug-coil-42", 9000 / 2.0},
    {"s44-01, half", "slug-coil-42", 8500 / 2.0},
    {"s05-04", "hot-coil-44", 0, 0, 3.5},
    {"s42-02", "hot-coil-44", 8420},
    {"s01-01", "narrow-coil-42", 3500, 4250},
    {"s01-02", "narrow-coil-42", 3350, 4250},
    {"s01-09", "bar-in-coil-42", 7300, 10000},
    {"s24-05", "wide-rod-42", 7500},
    {"s24-06", "wide-rod-42", 7900},
    {"s11-01", "wide-rod-42", 0, 0, 3.0},
    {"s11-02", "wide-rod-42", 0, 0, 4.5},
    {"s16-01", "bass-rod-42", 6800},
    {"s39-01", "split-bass-42", 5000},
    {"s04-01", "low-form-44", 7406, 0, 1.462, 69e-12},
    {"s04-03", "low-form-44", 7073, 0, 1.430, 71e-12},
    {"s04-05", "low-form-44", 6894, 0, 1.398, 73e-12},
    {"s32-01", "covered-rod-44", 7000},
    {"s32-02", "covered-rod-44", 8000},
    {"s34-01", "covered-rod-44", 7480},
    {"s47-01", "blade-38", 2400},
    {"s48-03", "blade-38", 2500},
    {"s48-04", "blade-38", 4000},
    {"s01-07", "blade-38", 2500},
    {"s01-08", "blade-38", 3500},
    {"s48-01", "blade-38-low", 1000},
    {"s48-02", "blade-38-low", 1500},
    {"s47-02", "blade-42", 5200},
};

// Faulty, or of another winding: must be no sound coil of this model.
const Published other_coils[] = {
    {"s17-03, broken winding", "six-rod-42", 260000},     {"s39-02, bad half", "split-bass-42", 223000},
    {"s32-03, another winding", "covered-rod-44", 11000}, {"s01-24, the next gauge", "lead-rod-42", 8000},
    {"s47-02, another gauge", "blade-38", 5200},
};

bool holds(const Range& range, double value) {
    return value >= range.low && value <= range.high;
}

/// True where nothing was published, or where it lies in a range that the model states.
bool agrees(const std::optional<Range>& range, double value) {
    return value == 0.0 || (range && holds(*range, value));
}

class PublishedRows : public testing::Test {
protected:
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
};

TEST_F(PublishedRows, OfSoundCoilsLieInTheRangesOfTheirModel) {
    for (const Published& row : sound_coils) {
        const CoilModel* model = rules.coil_model(row.model);
        ASSERT_TRUE(model) << row.model;
        EXPECT_TRUE(agrees(model->dc_resistance_ohm, row.dc_resistance_ohm))
            << row.row << " in " << row.model;
        // Where a model leaves out the turns, none were published.
        EXPECT_TRUE(agrees(model->turns, row.turns)) << row.row << " in " << row.model;
        EXPECT_TRUE(agrees(model->inductance_h, row.inductance_h)) << row.row << " in " << row.model;
        EXPECT_TRUE(agrees(model->self_capacitance_f, row.self_capacitance_f))
            << row.row << " in " << row.model;
    }
}

TEST_F(PublishedRows, OfFaultyAndOtherCoilsLieOutside) {
    for (const Published& row : other_coils) {
        const CoilModel* model = rules.coil_model(row.model);
        ASSERT_TRUE(model) << row.model;
        EXPECT_FALSE(holds(model->dc_resistance_ohm, row.dc_resistance_ohm))
            << row.row << " in " << row.model;
    }
}

TEST_F(PublishedRows, AreNamedInTheSourceOfTheirModel) {
    for (const Published& row : sound_coils) {
        const std::string id = std::string("S") + std::string(row.row).substr(1, 2);
        EXPECT_NE(rules.coil_model(row.model)->source.find(id), std::string::npos)
            << id << " in " << row.model;
    }
}

/// Every model but the computed one rests on a row.
TEST_F(PublishedRows, StandBehindEveryModelThatIsNotComputed) {
    for (const CoilModel& model : rules.coil_models) {
        const bool published = std::ranges::any_of(sound_coils, [&](const Published& row) {
            return model.id == row.model && row.dc_resistance_ohm > 0.0;
        });
        EXPECT_TRUE(published || model.source.starts_with("No published measurement.")) << model.id;
    }
}

/// The makers' limits of the wire alone are -7.5 and +8.5 % for 42 AWG (S14: 2.4 to 2.6 mil bare), a ratio
/// of 1.17 from end to end; a range that is narrower cannot be of healthy coils, and one of more than 2 says
/// nothing.
TEST_F(PublishedRows, LeaveRangesNeitherNarrowerThanTheWireNorTooWideToUse) {
    for (const CoilModel& model : rules.coil_models) {
        const double ratio = model.dc_resistance_ohm.high / model.dc_resistance_ohm.low;
        EXPECT_GE(ratio, 1.17) << model.id;
        EXPECT_LE(ratio, 2.0) << model.id;
    }
}

/// Series Q = ωL / (R + eddy loss); the loss of poles without a cover is more than nothing and less than a
/// quarter of ωL (the models' sources derive 2 to 20 %).
TEST_F(PublishedRows, AgreeWithTheQualityFactorsDerivedFromThem) {
    constexpr double omega = 2.0 * std::numbers::pi * 1000.0;
    for (const CoilModel& model : rules.coil_models) {
        if (!model.quality_factor) continue;
        ASSERT_TRUE(model.inductance_h) << model.id;
        const double reactance = omega * std::sqrt(model.inductance_h->low * model.inductance_h->high);
        const double resistance = std::sqrt(model.dc_resistance_ohm.low * model.dc_resistance_ohm.high);
        const double quality = std::sqrt(model.quality_factor->low * model.quality_factor->high);
        EXPECT_LT(quality, reactance / resistance) << model.id;
        EXPECT_GT(quality, reactance / (resistance + 0.25 * reactance)) << model.id;
    }
}

/// turns × mean turn × resistance per metre. 44 AWG: nominal 2.0 mil, 2351.7 to 2872.9 ohm per 1000 ft (wire
/// makers' table of limits; IACS copper, 1/58 ohm mm²/m).
TEST_F(PublishedRows, OrGeometryExplainTheComputedModel) {
    const CoilModel* strip = rules.coil_model("strip-44");
    ASSERT_TRUE(strip && strip->turns && strip->mean_turn_length_m);
    constexpr double metre_per_1000_ft = 304.8;
    const double thick = 2351.7 / metre_per_1000_ft;
    const double thin = 2872.9 / metre_per_1000_ft;
    EXPECT_GT(strip->dc_resistance_ohm.low, strip->turns->low * strip->mean_turn_length_m->low * thick);
    EXPECT_LT(strip->dc_resistance_ohm.high, strip->turns->high * strip->mean_turn_length_m->high * thin);
    const double middle = 5000.0 * 0.142 * 2592.8 / metre_per_1000_ft;
    const double centre = std::sqrt(strip->dc_resistance_ohm.low * strip->dc_resistance_ohm.high);
    EXPECT_NEAR(centre, middle, 0.02 * middle);
}

} // namespace
} // namespace coilward
