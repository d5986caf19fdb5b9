#include "rewind/confirmation.h"

#include <algorithm>
#include <limits>

#include <gtest/gtest.h>

namespace coilward {
namespace {

const Visit visit{
    .at = *moment_from_text("2026-03-02T10:00:00Z"), .stage = "after rewinding", .rewound = true};
const Pickup pickup{.number = 1, .name = "Neck, red guitar"};

StoredReading stored(Reading reading) {
    static std::uint8_t number = 0; // ids only have to differ
    StoredReading made{
        .visit = visit.id, .at = visit.at, .meter = "bench-lcr", .reading = std::move(reading)};
    made.id.bytes[15] = ++number;
    return made;
}

StoredReading resistance(double ohm, double u) {
    return stored({.quantity = Quantity::dc_resistance, .value = ohm, .standard_uncertainty = u});
}

StoredReading temperature(double degc, double u) {
    return stored({.quantity = Quantity::temperature, .value = degc, .standard_uncertainty = u});
}

StoredReading kick(Polarity polarity) {
    return stored({.quantity = Quantity::polarity, .polarity = polarity});
}

StoredReading insulation_over(double limit) {
    return stored({.quantity = Quantity::insulation_resistance,
                   .between = Between::start_frame,
                   .state = State::over_range,
                   .limit = limit});
}

Requirement ohm(double low, double high) {
    return {.quantity = Quantity::dc_resistance, .limits = {low, high}, .from = "the order"};
}

Confirmation confirmed(const std::vector<StoredReading>& readings,
                       const std::vector<Requirement>& requirements, const ConfirmationRule& rule = {},
                       const CoilModel* model = nullptr) {
    return confirm(pickup, visit, "", readings, requirements, rule, model);
}

/// The resistors of JCGM 106:2012, 9.5: 1500 Ω ± 0.2 Ω, measured with a standard uncertainty of 0.04 Ω and
/// accepted from 1499.82 to 1500.18 Ω, that is with a guard band of 0.02 Ω, half a standard uncertainty; here
/// as coils at 20 °C. The conformance probability of that guard band is Φ(0.5) = 0.691462.
TEST(Confirmation, DecidesTheResistorsOfJcgm106) {
    const struct {
        double measured;
        Decision decision;
    } rows[] = {{1499.77, Decision::fail},           {1499.79, Decision::measure_better},
                {1499.81, Decision::measure_better}, {1499.83, Decision::pass},
                {1500.17, Decision::pass},           {1500.19, Decision::measure_better},
                {1500.21, Decision::measure_better}, {1500.23, Decision::fail}};

    for (const auto& [measured, decision] : rows) {
        const auto result = confirmed({temperature(20.0, 0.0), resistance(measured, 0.04)},
                                      {ohm(1499.8, 1500.2)}, {.conformance_probability = 0.69146246});
        ASSERT_EQ(result.checked.size(), 1U);
        EXPECT_NEAR(result.checked[0].conformity.accept_from, 1499.82, 1e-6);
        EXPECT_NEAR(result.checked[0].conformity.accept_to, 1500.18, 1e-6);
        EXPECT_EQ(result.checked[0].conformity.decision, decision) << measured;
    }
}

TEST(Confirmation, TakesResistanceTo20DegreesWithTheTemperaturesUncertainty) {
    const auto result = confirmed({temperature(30.0, 0.5), resistance(6235.8, 6.0)}, {ohm(5900, 6100)});
    // 6235.8 / 1.0393 = 6000 Ω; u = 6000 √((6 / 6235.8)² + (0.00393 · 0.5 / 1.0393)²) = 12.73 Ω.
    EXPECT_NEAR(result.checked[0].judged.value, 6000.0, 1e-6);
    EXPECT_NEAR(result.checked[0].judged.standard_uncertainty, 12.73, 0.01);
    EXPECT_EQ(result.checked[0].says, "from 6.2358 kΩ at 30.0 °C to 20 °C");
    EXPECT_EQ(result.checked[0].conformity.decision, Decision::pass);
    EXPECT_TRUE(result.temperature_was_read);
}

TEST(Confirmation, DoesNotSayOfACoilAt20DegreesThatItsResistanceStaysAsItIs) {
    const auto result = confirmed({temperature(20.0, 0.5), resistance(6000.0, 6.0)}, {ohm(5900, 6100)});
    EXPECT_DOUBLE_EQ(result.checked[0].judged.value, 6000.0);
    EXPECT_EQ(result.checked[0].says, "needs no correction at 20 °C");
}

TEST(Confirmation, WithoutAThermometerIsNoSurer) {
    const auto result = confirmed({resistance(6023.6, 1.0)}, {ohm(5950, 6050)});
    EXPECT_FALSE(result.temperature_was_read);
    // 5 K of a usual room are about 118 Ω of 6 kΩ.
    EXPECT_NEAR(result.checked[0].judged.standard_uncertainty, 117.4, 1.0);
    EXPECT_EQ(result.decision, Decision::measure_better);
}

TEST(Confirmation, JudgesNothingThatWasNotReadOrHasNoUncertainty) {
    EXPECT_EQ(confirmed({}, {ohm(5900, 6100)}).checked[0].says, "not read");
    auto bare = resistance(6000, 1);
    bare.reading.standard_uncertainty.reset();
    EXPECT_EQ(confirmed({bare}, {ohm(5900, 6100)}).checked[0].says, "the meter's uncertainty is not known");
    EXPECT_EQ(confirmed({bare}, {ohm(5900, 6100)}).checked[0].conformity.decision, Decision::measure_better);
    const ConfirmationRule bench{.bench = {{.quantity = Quantity::dc_resistance,
                                            .relative_uncertainty = 0.003,
                                            .absolute_uncertainty = 8.0}}};
    const auto result = confirmed({temperature(20, 0), bare}, {ohm(5900, 6100)}, bench);
    EXPECT_NEAR(result.checked[0].judged.standard_uncertainty, 19.70, 0.01); // √(18² + 8²)
}

Decision of(const Confirmation& confirmation, const char* condition) {
    return std::ranges::find(confirmation.conditions, condition, &HardCondition::name)->decision;
}

TEST(HardConditions, AreJudgedByWhatWasSeen) {
    const auto polarity = [](Polarity seen) { return of(confirmed({kick(seen)}, {}), "polarity"); };
    EXPECT_EQ(polarity(Polarity::as_expected), Decision::pass);
    EXPECT_EQ(polarity(Polarity::reversed), Decision::fail);
    EXPECT_EQ(polarity(Polarity::none), Decision::fail);
    EXPECT_EQ(of(confirmed({}, {}), "polarity"), Decision::measure_better);

    EXPECT_EQ(of(confirmed({insulation_over(20e6)}, {}), "insulation"), Decision::pass);
    EXPECT_EQ(of(confirmed({insulation_over(2e6)}, {}), "insulation"), Decision::measure_better);
    EXPECT_EQ(of(confirmed({}, {}), "insulation"), Decision::measure_better);
    auto leak = insulation_over(20e6);
    leak.reading.state = State::ok;
    leak.reading.value = 1e6;
    leak.reading.standard_uncertainty = 1e4;
    EXPECT_EQ(of(confirmed({insulation_over(20e6), leak}, {}), "insulation"), Decision::fail)
        << "the worst counts";

    auto open = resistance(6000, 1);
    open.reading.state = State::over_range;
    EXPECT_EQ(of(confirmed({open}, {}), "continuity"), Decision::fail);
    EXPECT_EQ(of(confirmed({resistance(6000, 1)}, {}), "continuity"), Decision::pass);
    EXPECT_EQ(of(confirmed({}, {}), "continuity"), Decision::measure_better);
}

TEST(Confirmation, PassesOnlyWhereEverythingPasses) {
    const std::vector<StoredReading> good{temperature(20, 0.1), resistance(6000, 6),
                                          kick(Polarity::as_expected), insulation_over(20e6)};
    EXPECT_EQ(confirmed(good, {ohm(5900, 6100)}).decision, Decision::pass);
    auto reversed = good;
    reversed[2] = kick(Polarity::reversed);
    EXPECT_EQ(confirmed(reversed, {ohm(5900, 6100)}).decision, Decision::fail);
    const std::vector<StoredReading> no_kick{good[0], good[1], good[3]};
    EXPECT_EQ(confirmed(no_kick, {ohm(5900, 6100)}).decision, Decision::measure_better);
    EXPECT_EQ(confirmed(good, {ohm(6100, 6300)}).decision, Decision::fail);
    EXPECT_EQ(confirmed(good, {}).decision, Decision::measure_better) << "nothing was required";
}

TEST(Confirmation, HoldsACoilAgainstItsOwnPast) {
    const AsItWas was{.at = visit.at, .resistance_20_ohm = {6000.0, 8.0}};
    const auto result = confirmed({temperature(20, 0), resistance(6000, 6)}, requirements_of(was, 5.0));
    EXPECT_NEAR(result.checked[0].requirement.limits.low, 5700, 1e-9);
    EXPECT_NEAR(result.checked[0].requirement.limits.high, 6300, 1e-9);
    EXPECT_NEAR(result.checked[0].judged.standard_uncertainty, 10.0, 1e-9) << "√(6² + 8²)";
    EXPECT_EQ(result.checked[0].requirement.from, "as it was on 2026-03-02");
}

TEST(ImpliedTurns, StandBesideTheCounters) {
    const CoilModel model{.id = "invented",
                          .turns = Range{7500, 8450},
                          .dc_resistance_ohm = {5550, 7100},
                          .inductance_h = Range{2.05, 3.0}};
    // The middle of the model's ranges: √(7500 · 8450) = 7960.84 turns, √(5550 · 7100) = 6277.34 Ω.
    const auto result = confirmed({temperature(20, 0), resistance(6277.34, 1)}, requirements_of(model),
                                  {.counted_turns = Uncertain{6000.0, 0.0}}, &model);
    ASSERT_EQ(result.turns.implied.size(), 1U);
    EXPECT_NEAR(result.turns.implied[0].turns.value, 7960.84, 0.1);
    // ln(7100 / 5550) / 3.919928 = 0.0628 less ln(8450 / 7500) / 3.919928 = 0.0304 in squares: 0.0550.
    EXPECT_NEAR(result.turns.implied[0].turns.standard_uncertainty / 7960.84, 0.0550, 0.0005);
    ASSERT_EQ(result.turns.says.size(), 1U);
    EXPECT_EQ(result.turns.says[0],
              "DC resistance disagrees with the counter: +1961 turns, standard uncertainty 438");
}

} // namespace
} // namespace coilward
