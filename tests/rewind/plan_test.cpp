#include "rewind/plan.h"

#include <algorithm>
#include <string>

#include <gtest/gtest.h>

namespace coilward {
namespace {

/// A layered racetrack of 42 AWG, 2.5 mil: straights 52 mm, inner radius 3 mm, 140 turns a layer 0.07 mm
/// apart, 50 layers. Computed outside of this program layer by layer: 7000 turns, 936.915911 m, 5100.765 Ω at
/// 20 °C.
Job layered_racetrack() {
    Job job;
    job.bobbin = {
        .core = {.straight_length_m = 0.052, .corner_radius_m = 0.003}, .height_m = 9.8e-3, .depth_m = 4e-3};
    job.spool = awg_spool(42, AwgDiameter::nominal, Build::single);
    job.spool.ohm_per_metre_20.standard_uncertainty = 0.0;
    job.spool.overall_diameter_m = {70e-6, 0.0};
    job.packing = {1.0, 0.0};
    job.temperature_c = {20.0, 0.0};
    job.target = {TargetKind::dc_resistance, {5100.765, 0.0}, "test"};
    return job;
}

Figure figure(const Plan& plan, const std::string& name) {
    const auto found = std::ranges::find(plan.figures, name, &Figure::name);
    return found == plan.figures.end() ? Figure{} : *found;
}

TEST(Plan, FindsTheTurnsOfAResistance) {
    const Plan plan = plan_of(layered_racetrack());
    EXPECT_EQ(plan.turns, 7000.0);
    EXPECT_NEAR(figure(plan, "wire_length").value, 936.915911, 1e-5);
    EXPECT_NEAR(figure(plan, "layers").value, 50.0, 1e-9);
    EXPECT_NEAR(figure(plan, "winding_depth").value, 3.5e-3, 1e-9);
    EXPECT_NEAR(figure(plan, "dc_resistance_20").value, 5100.765, 0.02);
    EXPECT_EQ(figure(plan, "dc_resistance_20").standard_uncertainty, 0.0);
    EXPECT_EQ(plan.fit.probability, 1.0);
}

TEST(Plan, TakesTheResistanceToTheBench) {
    Job job = layered_racetrack();
    job.temperature_c = {30.0, 0.5};
    const Figure now = figure(plan_of(job), "dc_resistance");
    // R(T) = R20 (1 + 0.00393 (T − 20)); half a kelvin is 0.1965 % of R20.
    EXPECT_NEAR(now.value, 5100.765 * 1.0393, 0.02);
    EXPECT_NEAR(now.standard_uncertainty, 5100.765 * 0.001965, 0.01);
    EXPECT_EQ(now.main_cause, "the temperature");
    EXPECT_NEAR(now.cause_share, 1.0, 1e-9);
}

TEST(Plan, CarriesTheWiresUncertainty) {
    Job job = layered_racetrack();
    job.target = {TargetKind::turns, {7000.0, 0.0}, "test"};
    job.spool.ohm_per_metre_20.standard_uncertainty = 0.02 * job.spool.ohm_per_metre_20.value;
    const Figure resistance = figure(plan_of(job), "dc_resistance_20");
    EXPECT_NEAR(resistance.standard_uncertainty / resistance.value, 0.02, 1e-9);
    EXPECT_EQ(resistance.main_cause, "the wire's ohm per metre");
    EXPECT_EQ(figure(plan_of(job), "turns").standard_uncertainty, 0.0);
}

TEST(Plan, SaysHowProbablyItFits) {
    Job job = layered_racetrack();
    job.spool.overall_basis = Basis::published;
    job.bobbin.depth_m = 3.5e-3; // exactly what it takes, and nothing for tape
    job.length_uncertainty_m = 0.05e-3;
    EXPECT_NEAR(plan_of(job).fit.probability, 0.5, 1e-6);
    EXPECT_TRUE(plan_of(job).fit.may_decide);
    job.tape_m = 1e-3;
    EXPECT_LT(plan_of(job).fit.probability, 1e-6);
}

TEST(Plan, DecidesNothingByADiameterWithoutASource) {
    Job job = layered_racetrack(); // 42 AWG: its overall diameter is unverified
    EXPECT_FALSE(plan_of(job).fit.may_decide);
    job.spool = with_measured(job.spool, {.overall_diameter_m = Uncertain{70e-6, 1e-6}});
    EXPECT_TRUE(plan_of(job).fit.may_decide);
}

TEST(Plan, GetsInductanceAndResonanceFromWhatIsKnown) {
    Job job = layered_racetrack();
    job.target = {TargetKind::inductance, {2.2, 0.0}, "test"};
    job.spool.ohm_per_metre_20.value = 1e-6; // next to no loss, so that the resonance is 1 / (2π √(LC))
    job.coil = CoilKnowledge{.henry_per_turn2 = {2.2 / (7000.0 * 7000.0), 0.0},
                             .self_capacitance_f = {100e-12, 0.0}};
    job.load = Load{.resistance_ohm = 1e9, .capacitance_f = 300e-12};
    const Plan plan = plan_of(job);
    EXPECT_EQ(plan.turns, 7000.0);
    EXPECT_NEAR(figure(plan, "resonance_frequency").value, 10730.24, 5.0);
    EXPECT_NEAR(figure(plan, "loaded_resonance_frequency").value, 5365.12, 3.0);
}

TEST(Plan, TellsWhatAnotherGaugeWouldDo) {
    const Job job = layered_racetrack();
    const auto others = with_other_wires(job, 7000, next_gauges(42, AwgDiameter::nominal, Build::single));
    ASSERT_EQ(others.size(), 2U);
    EXPECT_EQ(others[0].title, "41 AWG (nominal diameter), single build");
    EXPECT_EQ(others[1].title, "43 AWG (nominal diameter), single build");
    EXPECT_GT(others[0].turns_for_target, 7000.0);
    EXPECT_LT(others[1].turns_for_target, 7000.0);
}

std::string refusal(const Job& job) {
    try {
        plan_of(job);
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "accepted";
}

TEST(Plan, RefusesWhatCannotBe) {
    Job job = layered_racetrack();
    job.packing = {1.3, 0.0};
    EXPECT_EQ(refusal(job),
              "round wire cannot lie denser than 1.155 turns to a square of its diameter; give a packing "
              "above 0 and up to that");
    job = layered_racetrack();
    job.target = {TargetKind::inductance, {2.2, 0.0}, "test"};
    EXPECT_EQ(refusal(job),
              "an inductance tells no turns without henry per turn²; name a coil model or a sister coil");
}

TEST(Spool, OfAGaugeIsWhatItsLimitsAllow) {
    // Limits of 42 AWG: 1534.2 / 1659.4 / 1800.6 Ω per 1000 ft (2.4 to 2.6 mil, IACS); rectangular between
    // them.
    const Spool spool = awg_spool(42, AwgDiameter::nominal, Build::single);
    EXPECT_NEAR(spool.ohm_per_metre_20.value * 304.8, 1659.4, 0.05);
    EXPECT_NEAR(spool.ohm_per_metre_20.standard_uncertainty * 304.8, (1800.6 - 1534.2) / 2 / 1.7320508, 0.1);
    // 40 AWG, single: 3.1 mil bare, at least 0.2 mil more, at most 3.7 mil over the enamel.
    const Spool thick = awg_spool(40, AwgDiameter::nominal, Build::single);
    EXPECT_NEAR(thick.overall_diameter_m.value / 25.4e-6, 3.5, 1e-9);
    EXPECT_EQ(thick.overall_basis, Basis::published);
}

} // namespace
} // namespace coilward
