#include "history/examples.h"
#include "rewind/coil_comparison.h"

#include <cmath>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::stored;

/// A coil with a DC resistance, an inductance and the room's temperature.
ComparedCoil coil_with(unsigned n, double ohm, double henry, double temperature_c) {
    auto pickup = testing::neck();
    pickup.id = testing::id(n);
    const auto visit = testing::visit_of(pickup, n + 1, "2026-03-02T10:00:00Z");
    auto resistance = stored(visit, n + 2, testing::dc_resistance(ohm));
    resistance.meter = "bench-lcr";
    const auto inductance = stored(visit, n + 3,
                                   {.quantity = Quantity::inductance,
                                    .circuit = Circuit::series,
                                    .frequency_hz = 1000.0,
                                    .value = henry,
                                    .standard_uncertainty = 0.01});
    const auto temperature =
        stored(visit, n + 4,
               {.quantity = Quantity::temperature, .value = temperature_c, .standard_uncertainty = 0.2});
    return {.title = "coil",
            .coil = "",
            .pickup = pickup,
            .visit = visit,
            .readings = {resistance, inductance, temperature}};
}

const ComparedQuantity& quantity_of(const CoilComparison& comparison, Quantity quantity) {
    for (const ComparedQuantity& each : comparison.quantities)
        if (each.question.quantity == quantity) return each;
    throw std::out_of_range("it was not compared");
}

TEST(CoilComparison, TakesResistancesTo20Degrees) {
    // One coil, cold and warm: 6000 ohm at 20 °C is 6000·(1 + 0.00393·10) at 30 °C.
    const auto comparison =
        compare({coil_with(10, 6000.0, 2.4, 20.0), coil_with(20, 6000.0 * 1.0393, 2.4, 30.0)}, {});
    const auto& pair = quantity_of(comparison, Quantity::dc_resistance).pairs.at(0);
    EXPECT_NEAR(pair.difference.value, 0.0, 1e-6);
    EXPECT_FALSE(pair.significant);
    // 9 ohm of each meter and 0.2 kelvin of each thermometer, in quadrature: 9² + (6000·0.00393·0.2)² and so
    // on.
    const double cold = std::hypot(9.0, 6000.0 * 0.00393 * 0.2);
    const double warm = std::hypot(9.0 / 1.0393, 6000.0 * 0.00393 / 1.0393 * 0.2);
    EXPECT_NEAR(pair.difference.standard_uncertainty, std::hypot(cold, warm), 1e-6);
}

TEST(CoilComparison, SaysWhatDiffersBeyondChance) {
    const auto comparison =
        compare({coil_with(10, 6000.0, 2.40, 20.0), coil_with(20, 6100.0, 2.41, 20.0)}, {});
    // Two pairs share 5 %: Φ(2.2414) = 1 − 0.0125.
    EXPECT_NEAR(comparison.needed_deviations, 2.2414, 5e-5);
    EXPECT_TRUE(quantity_of(comparison, Quantity::dc_resistance).pairs.at(0).significant);
    EXPECT_FALSE(quantity_of(comparison, Quantity::inductance).pairs.at(0).significant);
}

TEST(CoilComparison, OfOneMeterMayBeMoreCertain) {
    ComparisonRule rule{.same_meter_correlation = 0.9};
    const std::vector coils{coil_with(10, 6000.0, 2.4, 20.0), coil_with(20, 6010.0, 2.4, 20.0)};
    const double without =
        quantity_of(compare(coils, {}), Quantity::dc_resistance).pairs.at(0).difference.standard_uncertainty;
    const double with = quantity_of(compare(coils, rule), Quantity::dc_resistance)
                            .pairs.at(0)
                            .difference.standard_uncertainty;
    // Var(b − a) = ua² + ub² − 2·r·ua·ub; with both nearly alike that is (1 − r) of it.
    EXPECT_NEAR(with / without, std::sqrt(0.1), 1e-4);
    auto typed = coils;
    typed[1].readings[0].meter = "";
    EXPECT_DOUBLE_EQ(quantity_of(compare(typed, rule), Quantity::dc_resistance)
                         .pairs.at(0)
                         .difference.standard_uncertainty,
                     without)
        << "of two meters nothing is claimed";
}

TEST(CoilComparison, OfAMatchedSetHasEveryPair) {
    const auto comparison = compare({coil_with(10, 6000.0, 2.4, 20.0), coil_with(20, 6010.0, 2.4, 20.0),
                                     coil_with(30, 6300.0, 2.4, 20.0)},
                                    {});
    const auto& pairs = quantity_of(comparison, Quantity::dc_resistance).pairs;
    ASSERT_EQ(pairs.size(), 3U);
    EXPECT_FALSE(pairs[0].significant) << "the first two are alike";
    EXPECT_TRUE(pairs[1].significant);
    EXPECT_TRUE(pairs[2].significant);
}

TEST(CoilComparison, SaysWhyAValueIsMissing) {
    auto without = coil_with(20, 6000.0, 2.4, 20.0);
    without.readings.erase(without.readings.begin());
    const auto comparison = compare({coil_with(10, 6000.0, 2.4, 20.0), without}, {});
    const auto& resistance = quantity_of(comparison, Quantity::dc_resistance);
    EXPECT_EQ(resistance.values.at(1).value, std::nullopt);
    EXPECT_EQ(resistance.values.at(1).says, "not read");
    EXPECT_TRUE(resistance.pairs.empty());
}

TEST(CoilComparison, OfAHumCancellingPairSaysHowMuchHumIsLeft) {
    // 8000 and 7840 turns: a hum of 160 turns of 15840, 1.0101 %; inductance goes with the turns squared.
    auto first = coil_with(10, 6000.0, 2.4, 20.0);
    auto second = coil_with(20, 6000.0, 2.4 * std::pow(7840.0 / 8000.0, 2), 20.0);
    const auto kick = [](ComparedCoil& coil, Polarity polarity) {
        coil.readings.push_back(
            stored(coil.visit, 99, {.quantity = Quantity::polarity, .polarity = polarity}));
    };
    kick(first, Polarity::as_expected);
    kick(second, Polarity::reversed);
    const auto hum = compare({first, second}, {.hum_cancelling_pair = true}).hum.value();
    EXPECT_NEAR(hum.hum_left.value, 160.0 / 15840.0, 1e-9);
    EXPECT_NEAR(hum.turns_ratio.value, 0.98, 1e-9);
    EXPECT_FALSE(hum.may_be_none);
    EXPECT_EQ(hum.polarity, "their kicks are opposite");
    // d hum = ½·½·(u(L)/L)·√2 about a ratio of 1: a hundredth of 2.4 H is known to 0.42 %.
    EXPECT_NEAR(hum.hum_left.standard_uncertainty, 0.25 * std::sqrt(2.0) * 0.01 / 2.4, 5e-5);

    const auto alike =
        compare({first, coil_with(30, 6000.0, 2.405, 20.0)}, {.hum_cancelling_pair = true}).hum.value();
    EXPECT_TRUE(alike.may_be_none);
    EXPECT_EQ(alike.polarity, "the polarity of both must be read before they are joined");
}

TEST(CoilComparison, NeedsTwoCoils) {
    EXPECT_THROW(compare({coil_with(10, 6000.0, 2.4, 20.0)}, {}), std::invalid_argument);
}

TEST(Comparison, SaysWhatRoundsToNothingWithoutAMinus) {
    const auto words = [](double ratio) {
        return per_cent_in_words({.ratio = ratio, .ratio_uncertainty = 0.0043});
    };
    EXPECT_EQ(words(1.2053), "+20.53 ± 0.43 %");
    EXPECT_EQ(words(0.98), "-2.00 ± 0.43 %");
    EXPECT_EQ(words(0.99996), "+0.00 ± 0.43 %");
    EXPECT_EQ(words(0.99994), "-0.01 ± 0.43 %");
}

} // namespace
} // namespace coilward
