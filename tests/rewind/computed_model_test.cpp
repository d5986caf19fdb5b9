#include "rewind/computed_model.h"
#include "rules/coil_model_file.h"
#include "rules/coil_model_text.h"
#include "rules/rules.h"

#include <cmath>

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// The bobbin of six-rod-42, an invented one of usual size.
Bobbin six_rod_bobbin() {
    return {.core = racetrack_outline(0.056, 0.0048), .height_m = 0.0105, .depth_m = 0.0056};
}

Range range_named(const std::vector<ComputedRange>& ranges, std::string_view quantity) {
    for (const ComputedRange& each : ranges)
        if (each.quantity == quantity) return each.range.value();
    throw std::out_of_range(std::string(quantity));
}

/// 5.7 to 6.6 kΩ and 7500 to 8100 turns of 42 AWG are what published columns give for coils with six rod
/// magnets (the sources of rules/coils/six-rod-42.toml).
TEST(ComputedModel, GeometryHoldsWhatPublishedCoilsMeasure) {
    const auto ranges = computed_ranges(
        {.wire = awg_spool(42, AwgDiameter::nominal, Build::single), .bobbin = six_rod_bobbin()});
    EXPECT_LT(range_named(ranges, "DC resistance").low, 5700.0);
    EXPECT_GT(range_named(ranges, "DC resistance").high, 6600.0);
    EXPECT_LT(range_named(ranges, "turns").low, 7500.0);
    EXPECT_GT(range_named(ranges, "turns").high, 8100.0);
}

/// R = N · l · r, by hand: 8000 turns of 0.13 m of 42 AWG at 5.44 ohm per metre (nominal diameter 2.5 mil,
/// copper of IACS conductivity) are 5660 ohm.
TEST(ComputedModel, ResistanceFollowsFromSaidTurns) {
    const auto ranges = computed_ranges({.wire = awg_spool(42, AwgDiameter::nominal, Build::single),
                                         .bobbin = six_rod_bobbin(),
                                         .turns = Range{7990.0, 8010.0}});
    const Range resistance = range_named(ranges, "DC resistance");
    const Range length = range_named(ranges, "mean turn length");
    const double expected = 8000.0 * std::sqrt(length.low * length.high) * 5.44;
    EXPECT_NEAR(std::sqrt(resistance.low * resistance.high) / expected, 1.0, 0.01);
}

TEST(ComputedModel, EachAnswerNarrows) {
    const Rules rules = load_rules(COILWARD_SOURCE_DIR "/rules");
    KnownOfCoil known{.type = rules.pickup_type("rod-single")};
    const auto width = [&](const char* quantity) {
        const Range range = range_named(computed_ranges(known), quantity);
        return range.high / range.low;
    };
    known.wire = awg_spool(42, AwgDiameter::nominal, Build::single);
    known.bobbin = six_rod_bobbin();
    const double by_geometry = width("DC resistance");
    const double inductance_by_type = width("inductance");
    known.resistance_20_ohm = 6100.0;
    EXPECT_LT(width("DC resistance"), by_geometry);
    EXPECT_LE(width("inductance"), inductance_by_type);
    known.inductance_h = 2.3;
    EXPECT_LT(width("inductance"), 1.3);
}

TEST(ComputedModel, SaysWhatContradictsAndWhatIsMissing) {
    KnownOfCoil known{.wire = awg_spool(44, AwgDiameter::nominal, Build::single),
                      .bobbin = six_rod_bobbin(),
                      .turns = Range{7900.0, 8100.0}};
    known.resistance_20_ohm = 6100.0;
    try {
        computed_ranges(known);
        FAIL() << "44 AWG has 1.6 times the resistance of 42";
    } catch (const NoCoilModel& error) {
        EXPECT_TRUE(
            std::string(error.what()).starts_with("the coil read 6100 ohm, but these turns of this wire"))
            << error.what();
    }
    EXPECT_THROW(computed_model({.turns = Range{7900.0, 8100.0}}, "x", "x", "x"), NoCoilModel);
}

TEST(ComputedModel, IsReadAsItWasWritten) {
    KnownOfCoil known{.wire = awg_spool(42, AwgDiameter::nominal, Build::single), .bobbin = six_rod_bobbin()};
    known.inductance_h = 2.3;
    const CoilModel model = computed_model(known, "odd-one", "An \"odd\" one", "computed");
    std::vector<Complaint> complaints;
    IdsInFolder ids({});
    const auto source = toml_from_text(coil_model_text(model), "odd-one.toml", complaints);
    ASSERT_TRUE(source);
    const auto read = read_coil_model(*source, ids, complaints);
    ASSERT_TRUE(complaints.empty()) << complaints.front().text();
    EXPECT_EQ(read->title, model.title);
    EXPECT_NEAR(read->dc_resistance_ohm.low, model.dc_resistance_ohm.low, 1e-3 * model.dc_resistance_ohm.low);
    EXPECT_NEAR(read->inductance_h->high, model.inductance_h->high, 1e-3 * model.inductance_h->high);
}

} // namespace
} // namespace coilward
