#include "metrology/control_chart.h"

#include <cmath>
#include <limits>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

// d2 = 1.128, D4 = 3.267 for n = 2 as printed in published tables of chart constants (a public statistics
// package's table SS_FACTORS; ISO 7870-2 has the same), and by quadrature 1.128379, 0.852502 and 3.266532.
TEST(ControlChart, HasThePublishedConstants) {
    EXPECT_NEAR(range_mean_of_two, 1.128, 0.0005);
    EXPECT_NEAR(range_mean_of_two, 1.128379, 5e-7);
    EXPECT_NEAR(range_deviation_of_two, 0.852502, 5e-7);
    const ControlChart chart = control_chart(std::vector{0.0, 1.0});
    EXPECT_NEAR(chart.upper_range_limit, 3.267, 0.0005);
    EXPECT_NEAR(chart.upper_range_limit, 3.266532, 5e-7);
}

// The flow rates of the NIST/SEMATECH e-Handbook, 6.3.2.2: mean, mean range and limits as printed there,
// which takes d2 as 1.128; with the exact one the limits move by 0.002.
TEST(ControlChart, IsThatOfTheHandbooksFlowRates) {
    const std::vector<double> flow{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
    const ControlChart chart = control_chart(flow);
    EXPECT_NEAR(chart.mean, 50.81, 1e-9);
    EXPECT_NEAR(chart.mean_range, 1.8778, 5e-5);
    EXPECT_NEAR(chart.upper_limit, 55.8041, 0.002);
    EXPECT_NEAR(chart.lower_limit, 45.8159, 0.002);
    EXPECT_NEAR(chart.upper_limit, 55.802412, 5e-7);
    EXPECT_NEAR(chart.lower_limit, 45.817588, 5e-7);
    EXPECT_TRUE(drift_signs(chart).empty());
}

// The data set Jets of a published user's guide to individuals charts (SAS/QC, IRCHART); its figures by
// quadrature.
TEST(ControlChart, IsThatOfTheJets) {
    const std::vector<double> jets{78.4, 80.1, 84.4, 79.1, 80.4, 83.5, 73.8, 83.5, 75.0, 76.8,
                                   70.5, 80.3, 82.4, 79.4, 86.4, 90.5, 77.7, 82.5, 79.9, 83.2};
    const ControlChart chart = control_chart(jets);
    EXPECT_NEAR(chart.mean, 80.39, 1e-9);
    EXPECT_NEAR(chart.mean_range, 5.326316, 5e-7);
    EXPECT_NEAR(chart.upper_limit, 94.550973, 5e-7);
    EXPECT_NEAR(chart.lower_limit, 66.229027, 5e-7);
    EXPECT_NEAR(chart.upper_range_limit, 17.398581, 5e-7);
}

std::vector<std::pair<std::size_t, std::string>> signs_of(const std::vector<double>& values) {
    std::vector<std::pair<std::size_t, std::string>> signs;
    for (const DriftSign& sign : drift_signs(control_chart(values)))
        signs.emplace_back(sign.point, drift_rules[sign.rule].name);
    return signs;
}

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Pair;

TEST(ControlChart, ShowsAPointBeyondALimit) {
    // Twelve that alternate about the mean, and one that lies 3.8 deviations above it.
    std::vector<double> values;
    for (int n = 0; n < 12; ++n)
        values.push_back(n % 2 == 0 ? 10.0 : -10.0);
    EXPECT_THAT(signs_of(values), IsEmpty());
    values.push_back(100.0);
    EXPECT_THAT(signs_of(values), ElementsAre(Pair(12, "beyond-limit"), Pair(12, "range-beyond-limit")));
}

TEST(ControlChart, ShowsNineOnOneSideAndNotEight) {
    // The mean is 0 by symmetry; steps of two between and small ones within a side.
    const auto sides = [](int run) {
        std::vector<double> values;
        for (const double side : {-1.0, 1.0})
            for (int n = 0; n < run; ++n)
                values.push_back(side * (1.0 + 0.9 * (n % 2)));
        return values;
    };
    EXPECT_THAT(signs_of(sides(8)), IsEmpty());
    EXPECT_THAT(signs_of(sides(9)), ElementsAre(Pair(8, "one-side"), Pair(17, "one-side")));
}

TEST(ControlChart, ShowsSixThatRiseOrFallAndNotFive) {
    EXPECT_THAT(signs_of({0.0, -0.2, -0.1, 0.0, 0.1, 0.2, 0.0}), IsEmpty());
    EXPECT_THAT(signs_of({0.0, -0.2, -0.1, 0.0, 0.1, 0.2, 0.3, 0.0}), Contains(Pair(6, "trend")));
    EXPECT_THAT(signs_of({0.0, 0.2, 0.1, 0.0, -0.1, -0.2, -0.3, 0.0}), Contains(Pair(6, "trend")));
    EXPECT_THAT(signs_of({0.0, -0.2, -0.1, -0.1, 0.0, 0.1, 0.2, 0.0}), IsEmpty())
        << "equal values end a trend";
}

TEST(ControlChart, NeedsTwoFiniteValues) {
    EXPECT_THROW(control_chart(std::vector{1.0}), std::invalid_argument);
    EXPECT_THROW(control_chart(std::vector{1.0, std::numeric_limits<double>::infinity()}),
                 std::invalid_argument);
}

} // namespace
} // namespace coilward
