#include "wire/metric_wire.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct Row {
    double nominal_mm;
    double grade1_minimum_mm;
    double grade1_maximum_mm;
    double grade2_minimum_mm;
    double grade2_maximum_mm;
    double minimum_ohm_per_m;
    double nominal_ohm_per_m; // 0 where the printed figure contradicts its own limits
    double maximum_ohm_per_m;
};

// A wire maker's calculation tables for enamelled round copper wire, dimensions by IEC 60317-0-1, resistances
// at 20 °C. For 0.030 mm the page prints a nominal of 24.16, but its own limits centre on 24.18 as computed:
// a misprint.
const Row rows[] = {
    {0.030, 0.033, 0.037, 0.038, 0.041, 21.76, 0, 26.6},
    {0.032, 0.035, 0.039, 0.040, 0.043, 19.13, 21.25, 23.38},
    {0.040, 0.044, 0.049, 0.050, 0.054, 12.28, 13.6, 14.92},
    {0.045, 0.050, 0.055, 0.056, 0.061, 9.705, 10.75, 11.79},
    {0.050, 0.055, 0.060, 0.061, 0.066, 7.922, 8.706, 9.489},
    {0.053, 0.058, 0.064, 0.065, 0.070, 7.0509, 7.7482, 8.4456},
    {0.056, 0.062, 0.067, 0.068, 0.074, 6.316, 6.940, 7.565},
    {0.060, 0.066, 0.072, 0.073, 0.079, 5.562, 6.046, 6.529},
    {0.063, 0.069, 0.076, 0.077, 0.083, 5.045, 5.484, 5.922},
    {0.071, 0.078, 0.084, 0.085, 0.091, 3.941, 4.318, 4.747},
    {0.075, 0.082, 0.089, 0.090, 0.095, 3.547, 3.870, 4.235},
    {0.080, 0.087, 0.094, 0.095, 0.101, 3.133, 3.401, 3.703},
};

TEST(MetricWire, HasTheDiametersOfThePrintedTable) {
    ASSERT_EQ(metric_wires().size(), std::size(rows));
    for (const auto& row : rows) {
        const auto wire = metric_wire(row.nominal_mm * 1e-3);
        ASSERT_TRUE(wire.has_value()) << row.nominal_mm;
        EXPECT_NEAR(wire->grade1_minimum_m, row.grade1_minimum_mm * 1e-3, 1e-12) << row.nominal_mm;
        EXPECT_NEAR(wire->grade1_maximum_m, row.grade1_maximum_mm * 1e-3, 1e-12) << row.nominal_mm;
        EXPECT_NEAR(wire->grade2_minimum_m, row.grade2_minimum_mm * 1e-3, 1e-12) << row.nominal_mm;
        EXPECT_NEAR(wire->grade2_maximum_m, row.grade2_maximum_mm * 1e-3, 1e-12) << row.nominal_mm;
    }
}

TEST(MetricWire, ReproducesThePrintedResistances) {
    // Within half a unit of the last of four printed digits, which is 0.05 % at most.
    constexpr double tolerance = 0.0005;
    for (const auto& row : rows) {
        const auto limits = metric_resistance_limits_ohm_per_m(*metric_wire(row.nominal_mm * 1e-3));
        EXPECT_NEAR(limits.minimum / row.minimum_ohm_per_m, 1.0, tolerance) << row.nominal_mm;
        EXPECT_NEAR(limits.maximum / row.maximum_ohm_per_m, 1.0, tolerance) << row.nominal_mm;
        if (row.nominal_ohm_per_m > 0) {
            EXPECT_NEAR(limits.nominal / row.nominal_ohm_per_m, 1.0, 0.0004) << row.nominal_mm;
        }
    }
}

TEST(MetricWire, KnowsNoSizesBetweenThoseOfTheTable) {
    EXPECT_FALSE(metric_wire(0.0634e-3).has_value());
    EXPECT_FALSE(metric_wire(0.100e-3).has_value());
    EXPECT_FALSE(metric_wire(0.063).has_value());
}

} // namespace
} // namespace coilward
