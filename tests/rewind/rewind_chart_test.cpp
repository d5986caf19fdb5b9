#include "history/examples.h"
#include "history/temporary_folder.h"
#include "rewind/rewind_chart.h"

#include <cmath>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

/// Rewinds of one model, each of a pickup of its own, a week apart.
struct RewindChartTest : ::testing::Test {
    testing::TemporaryFolder folder;
    History history{folder.path()};
    CoilModel model{.id = "six-rod-42", .dc_resistance_ohm = {5700.0, 6600.0}};

    void rewind(unsigned n, double ohm_at_20, double temperature_c = 20.0) {
        auto pickup = testing::neck();
        pickup.id = testing::id(1000 + 10 * n);
        history.add_pickup(pickup);
        auto received = testing::visit_of(pickup, 1001 + 10 * n, "2026-01-01T10:00:00Z");
        history.begin_visit(received);
        history.append_reading(testing::stored(received, 1002 + 10 * n, testing::dc_resistance(100.0)));
        auto visit = testing::visit_of(pickup, 1003 + 10 * n, "2026-03-02T10:00:00Z");
        visit.at += std::chrono::hours(168 * n);
        visit.rewound = true;
        history.begin_visit(visit);
        history.append_reading(
            testing::stored(visit, 1004 + 10 * n,
                            testing::dc_resistance(ohm_at_20 * (1.0 + 0.00393 * (temperature_c - 20.0)))));
        history.append_reading(testing::stored(
            visit, 1005 + 10 * n,
            {.quantity = Quantity::temperature, .value = temperature_c, .standard_uncertainty = 0.2}));
    }
};

// The flow rates of the NIST/SEMATECH e-Handbook, 6.3.2.2, as if they were the resistances of ten rewinds, ×
// 120 ohm.
constexpr double flow[] = {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};

TEST_F(RewindChartTest, IsOfTheNewWindingsInTheOrderOfTheirTimes) {
    for (unsigned n = 10; n-- > 0;)
        rewind(n, 120.0 * flow[n], 18.0 + n);
    const RewindChart chart = rewind_chart(history, model, Quantity::dc_resistance, {});
    ASSERT_EQ(chart.coils.size(), 10U);
    EXPECT_NEAR(chart.coils.front().value.value, 120.0 * 49.6, 1e-6);
    EXPECT_NEAR(chart.chart.mean, 120.0 * 50.81, 1e-6);
    EXPECT_NEAR(chart.chart.upper_limit, 120.0 * 55.802412, 1e-4);
    EXPECT_NEAR(chart.chart.lower_limit, 120.0 * 45.817588, 1e-4);
    EXPECT_TRUE(chart.signs.empty());
    EXPECT_EQ(chart.without_reading, 0U);
    ASSERT_TRUE(chart.risk);
    // The share within 5700 to 6600 of a normal process of mean 6097.2 and the deviation less what measuring
    // adds.
    const double made =
        std::sqrt(std::pow(chart.chart.deviation, 2) - std::pow(chart.measurement_uncertainty, 2));
    const auto below = [&](double limit) {
        return 0.5 * std::erfc((6097.2 - limit) / made / std::sqrt(2.0));
    };
    EXPECT_NEAR(chart.risk->conforming, below(6600.0) - below(5700.0), 1e-9);
    EXPECT_GT(chart.risk->producer, chart.risk->consumer) << "the guard band protects the customer";
}

TEST_F(RewindChartTest, ShowsADrift) {
    for (unsigned n = 0; n < 10; ++n)
        rewind(n, 6000.0 + (n % 2 ? 100.0 : -100.0));
    rewind(10, 7000.0);
    const RewindChart chart = rewind_chart(history, model, Quantity::dc_resistance, {});
    ASSERT_FALSE(chart.signs.empty());
    EXPECT_EQ(chart.signs.front().point, 10U);
    EXPECT_STREQ(drift_rules[chart.signs.front().rule].name, "beyond-limit");
}

TEST_F(RewindChartTest, CountsWhatWasNotRead) {
    rewind(0, 6000.0);
    rewind(1, 6010.0);
    EXPECT_THROW(rewind_chart(history, model, Quantity::inductance, {}), std::invalid_argument);
    auto visit = testing::visit_of(*history.pickup(1), 5000, "2027-03-02T10:00:00Z");
    visit.rewound = true;
    history.begin_visit(visit);
    EXPECT_EQ(rewind_chart(history, model, Quantity::dc_resistance, {}).without_reading, 1U);
}

} // namespace
} // namespace coilward
