#include "diagnosis/coil_finding.h"
#include "reading/examination_json.h"

#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

namespace coilward {
namespace {

const Rules& rules() {
    static const Rules shipped = load_rules(COILWARD_SOURCE_DIR "/rules");
    return shipped;
}

Examination example(const char* name) {
    std::ifstream file(std::string(COILWARD_SOURCE_DIR "/docs/examples/") + name);
    std::ostringstream text;
    text << file.rdbuf();
    return examination_from_json(text.str());
}

Estimate estimate_of(const Diagnosis& diagnosis, const std::string& name) {
    return *std::ranges::find(diagnosis.verdict.estimates, name, &Estimate::name);
}

// The share of the turns times the model's 7500 to 8100 of them.
TEST(InTurns, CountsTheShortedOnes) {
    const Diagnosis diagnosis = diagnose(rules(), example("shorted-turns.json"));
    ASSERT_EQ(diagnosis.verdict.fault, "shorted-turns");
    const CoilModel& model = *rules().coil_model(diagnosis.coil_model);
    ASSERT_TRUE(model.turns && diagnosis.in_turns.shorted);
    const Estimate share = estimate_of(diagnosis, "shorted_fraction");
    const Counted& shorted = *diagnosis.in_turns.shorted;
    EXPECT_GT(shorted.value, share.value * model.turns->low * 0.95);
    EXPECT_LT(shorted.value, share.value * model.turns->high * 1.05);
    EXPECT_LT(shorted.low, shorted.value);
    EXPECT_GT(shorted.high, shorted.value);
    EXPECT_FALSE(diagnosis.in_turns.from_start);
}

// Turns times the wire's width over the winding's height: 44 AWG of single build is some 0.057 mm wide (2.0
// mil bare and what its enamel adds, NEMA MW 1000), the model's winding 5 mm high.
TEST(InTurns, CountsLayersWhereTheModelHasABobbin) {
    CoilModel model = *rules().coil_model("strip-44");
    ASSERT_TRUE(model.turns && model.bobbin.wound_height_m);
    const CoilFinding finding = finding_of(rules(), example("shorted-turns.json"));
    const InTurns counted = in_turns(finding.posterior.front(), model);
    ASSERT_TRUE(counted.shorted && counted.shorted_layers);
    EXPECT_NEAR(counted.shorted_layers->value / counted.shorted->value, 0.057e-3 / 5e-3,
                0.05 * 0.057e-3 / 5e-3);
    model.bobbin = {};
    EXPECT_FALSE(in_turns(finding.posterior.front(), model).shorted_layers);
    model.turns.reset();
    EXPECT_FALSE(in_turns(finding.posterior.front(), model).any());
}

// The case of frame-leak.toml: 6161 Ω from the start, 8660 Ω from the finish to a wire that touches a magnet:
// the winding's 6.2 kΩ and the leak make 6161 = p · 6214 + R, 8660 = (1 − p) · 6214 + R, so p = 0.299.
TEST(InTurns, CountsFromBothLeadsToALeak) {
    std::vector<Reading> readings{
        {.quantity = Quantity::temperature, .value = 21.5, .standard_uncertainty = 0.5},
        {.quantity = Quantity::dc_resistance, .value = 6214.0, .standard_uncertainty = 9.3},
        {.quantity = Quantity::insulation_resistance,
         .between = Between::start_frame,
         .value = 6161.0,
         .standard_uncertainty = 62.0},
        {.quantity = Quantity::insulation_resistance,
         .between = Between::finish_frame,
         .value = 8660.0,
         .standard_uncertainty = 87.0}};
    const Diagnosis diagnosis = diagnose(rules(), {.coil_model = "six-rod-42", .readings = readings});
    ASSERT_EQ(diagnosis.verdict.fault, "frame-leak");
    ASSERT_TRUE(diagnosis.in_turns.from_start && diagnosis.in_turns.from_finish);
    EXPECT_NEAR(diagnosis.in_turns.from_start->value, 0.299 * 7800.0, 150.0);
    EXPECT_NEAR(diagnosis.in_turns.from_finish->value, 0.701 * 7800.0, 250.0);
    EXPECT_LT(diagnosis.in_turns.from_start->low, 0.299 * 7800.0);
    EXPECT_GT(diagnosis.in_turns.from_start->high, 0.299 * 7800.0);
}

} // namespace
} // namespace coilward
