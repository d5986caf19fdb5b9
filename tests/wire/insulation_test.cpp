#include "wire/gauge.h"
#include "wire/insulation.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct Row {
    int awg;
    double single_minimum_increase_mil;
    double single_maximum_mil;
    double heavy_minimum_increase_mil;
};

// A wire maker's table of round magnet wire, NEMA MW 1000.
const Row rows[] = {
    {36, 0.4, 5.8, 0.8}, {37, 0.3, 5.2, 0.8}, {38, 0.3, 4.7, 0.7}, {39, 0.2, 4.1, 0.6}, {40, 0.2, 3.7, 0.6},
};

TEST(OverallDiameter, IsThatOfThePrintedTable) {
    for (const auto& row : rows) {
        const auto single = awg_overall_diameter(row.awg, Build::single);
        ASSERT_TRUE(single.has_value()) << row.awg;
        EXPECT_EQ(single->basis, Basis::published) << row.awg;
        EXPECT_NEAR(*single->minimum_increase_m / metre_per_mil, row.single_minimum_increase_mil, 1e-9)
            << row.awg;
        EXPECT_NEAR(*single->maximum_m / metre_per_mil, row.single_maximum_mil, 1e-9) << row.awg;

        const auto heavy = awg_overall_diameter(row.awg, Build::heavy);
        EXPECT_NEAR(*heavy->minimum_increase_m / metre_per_mil, row.heavy_minimum_increase_mil, 1e-9)
            << row.awg;
        EXPECT_FALSE(heavy->maximum_m.has_value()) << row.awg;
    }
}

TEST(OverallDiameter, HoldsTheConductorAndTheLeastEnamel) {
    for (int awg = 36; awg <= 46; ++awg) {
        const auto single = awg_overall_diameter(awg, Build::single);
        const double bare_m = awg_diameter_m(awg, AwgDiameter::nominal);
        EXPECT_GT(*single->maximum_m, bare_m + single->minimum_increase_m.value_or(0.0)) << awg;
    }
}

TEST(OverallDiameter, SaysWhichFiguresHaveNoSource) {
    for (int awg = 41; awg <= 46; ++awg)
        for (const auto build : {Build::single, Build::heavy})
            EXPECT_EQ(awg_overall_diameter(awg, build)->basis, Basis::unverified) << awg;
    EXPECT_FALSE(awg_overall_diameter(35, Build::single).has_value());
    EXPECT_FALSE(awg_overall_diameter(47, Build::heavy).has_value());
}

} // namespace
} // namespace coilward
