#include "wire/circle.h"
#include "wire/copper.h"
#include "wire/gauge.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

#include <gtest/gtest.h>

namespace coilward {
namespace {

constexpr double feet_1000_in_metre = 304.8;

struct ExactSize {
    int awg;
    double diameter_mil; // formula of ASTM B258, computed to ten digits
    double area_cmil;    // its square
    double ohm_per_km;   // at 20 °C, IACS copper
    double printed_mil;  // "Lessons in Electric Circuits", reference volume, copper wire gage table; 0: none
    double printed_cmil; // same
    double printed_per_1000_ft; // AWG table of a university's physics pages, quoting an electronics textbook;
                                // 0: none
};

const ExactSize exact_sizes[] = {
    {36, 5.0, 25.0, 1361.0519, 5.0, 25.0, 414.8},
    {37, 4.452628587, 19.825901, 1716.2547, 4.453, 19.83, 523.1},
    {38, 3.965180267, 15.722655, 2164.1573, 3.965, 15.72, 659.6},
    {39, 3.531095003, 12.468632, 2728.9519, 3.531, 12.47, 831.8},
    {40, 3.144530911, 9.8880746, 3441.1449, 3.145, 9.888, 1049.0},
    {41, 2.800285645, 7.8415997, 4339.2036, 2.8, 7.842, 0},
    {42, 2.493726384, 6.2186713, 5471.6347, 2.494, 6.219, 0},
    {43, 2.220727477, 4.9316305, 6899.6039, 2.221, 4.932, 0},
    {44, 1.97761493, 3.9109608, 8700.2399, 1.978, 3.911, 0},
    {45, 1.761116954, 3.1015329, 10970.8, 0, 0, 0},
    {46, 1.568319939, 2.4596274, 13833.923, 0, 0, 0},
};

TEST(ExactGauge, FollowsTheFormula) {
    for (const auto& row : exact_sizes) {
        const double diameter_m = awg_diameter_m(row.awg, AwgDiameter::exact);
        EXPECT_NEAR(diameter_m / metre_per_mil, row.diameter_mil, 1e-9) << row.awg;
        const double circular_mil_m2 = std::numbers::pi / 4 * metre_per_mil * metre_per_mil;
        EXPECT_NEAR(circle_area_m2(diameter_m) / circular_mil_m2, row.area_cmil, 1e-6) << row.awg;
        EXPECT_NEAR(ohm_per_metre_20(diameter_m) * 1000 / row.ohm_per_km, 1.0, 1e-7) << row.awg;
    }
}

TEST(ExactGauge, AgreesWithPrintedTablesToTheirLastDigit) {
    for (const auto& row : exact_sizes) {
        const double diameter_m = awg_diameter_m(row.awg, AwgDiameter::exact);
        const double mil = diameter_m / metre_per_mil;
        if (row.printed_mil > 0) {
            EXPECT_NEAR(mil, row.printed_mil, 0.0005) << row.awg;
            EXPECT_NEAR(mil * mil, row.printed_cmil, row.printed_cmil > 10 ? 0.005 : 0.0005) << row.awg;
        }
        if (row.printed_per_1000_ft > 0) {
            EXPECT_NEAR(ohm_per_metre_20(diameter_m) * feet_1000_in_metre / row.printed_per_1000_ft, 1.0,
                        0.0003)
                << row.awg;
        }
    }
}

/// Diameters that define the gauge: 0000 is 460 mil and 36 is 5 mil (ASTM B258).
TEST(ExactGauge, HasItsTwoDefiningSizes) {
    EXPECT_NEAR(awg_diameter_m(-3, AwgDiameter::exact), 0.460 * 0.0254, 1e-15);
    EXPECT_NEAR(awg_diameter_m(36, AwgDiameter::exact), 0.005 * 0.0254, 1e-18);
}

struct NominalSize {
    int awg;
    double nominal_mil;
    double ohm_per_km;         // computed from it, IACS copper
    double percent_over_exact; // of the resistance, computed
};

// Nominal diameters: 36 to 40 a wire maker's table of round magnet wire (NEMA MW 1000); 42 and 44 a litz wire
// maker's technical information, table 2; 41 and 43 the same rounding; 45 and 46 confirmed by the latter's
// highest resistances.
const NominalSize nominal_sizes[] = {
    {36, 5.0, 1361.052, 0.0},     {37, 4.5, 1680.311, -2.094},   {38, 4.0, 2126.644, -1.733},
    {39, 3.5, 2777.657, 1.785},   {40, 3.1, 3540.718, 2.894},    {41, 2.8, 4340.089, 0.0204},
    {42, 2.5, 5444.208, -0.5013}, {43, 2.2, 7030.227, 1.893},    {44, 2.0, 8506.574, -2.226},
    {45, 1.76, 10984.73, 0.127},  {46, 1.57, 13804.33, -0.2139},
};

TEST(NominalGauge, IsAnotherDiameterAndAnotherResistance) {
    for (const auto& row : nominal_sizes) {
        const double nominal_m = awg_diameter_m(row.awg, AwgDiameter::nominal);
        EXPECT_NEAR(nominal_m / metre_per_mil, row.nominal_mil, 1e-9) << row.awg;
        const double nominal_ohm = ohm_per_metre_20(nominal_m);
        EXPECT_NEAR(nominal_ohm * 1000 / row.ohm_per_km, 1.0, 2e-7) << row.awg;
        const double exact_ohm = ohm_per_metre_20(awg_diameter_m(row.awg, AwgDiameter::exact));
        EXPECT_NEAR((nominal_ohm / exact_ohm - 1) * 100, row.percent_over_exact, 0.0006) << row.awg;
    }
}

struct LimitRow {
    int awg;
    double minimum_mil;
    double nominal_mil;
    double maximum_mil;
    double minimum_ohm; // per 1000 ft at 20 °C, as printed; 0 where the page has none
    double nominal_ohm;
    double maximum_ohm;
};

// 24 to 36: "Copper Magnet Wire Data, NEMA sizes", a wire maker's catalogue page (its last figure for 36 is
// cut off). 37 to 40: diameters of the table named above; highest resistances of 38, 40, 42 and 44: the litz
// wire maker's table.
const LimitRow limit_rows[] = {
    {24, 19.9, 20.1, 20.3, 25.17, 25.67, 26.19},
    {25, 17.7, 17.9, 18.1, 31.66, 32.37, 33.10},
    {26, 15.7, 15.9, 16.1, 40.01, 41.02, 42.07},
    {27, 14.1, 14.2, 14.3, 50.72, 51.43, 52.17},
    {28, 12.5, 12.6, 12.7, 64.30, 65.33, 66.37},
    {29, 11.2, 11.3, 11.4, 79.80, 81.22, 82.68},
    {30, 9.9, 10.0, 10.1, 101.7, 103.7, 105.8},
    {31, 8.8, 8.9, 9.0, 128.0, 130.9, 133.9},
    {32, 7.9, 8.0, 8.1, 158.1, 162.0, 166.2},
    {33, 7.0, 7.1, 7.2, 200.1, 205.7, 211.7},
    {34, 6.2, 6.3, 6.4, 253.2, 261.3, 269.8},
    {35, 5.5, 5.6, 5.7, 319.2, 330.7, 342.8},
    {36, 4.9, 5.0, 5.1, 398.7, 414.8, 0},
    {37, 4.4, 4.5, 4.6, 0, 0, 0},
    {38, 3.9, 4.0, 4.1, 0, 0, 681.9},
    {39, 3.4, 3.5, 3.6, 0, 0, 0},
    {40, 3.0, 3.1, 3.2, 0, 0, 1152.3},
    {42, 2.4, 2.5, 2.6, 0, 0, 1801.0},
    {44, 1.9, 2.0, 2.1, 0, 0, 2873.0},
};

/// Four printed digits are good to 0.05 % at worst.
void expect_printed(double ohm_per_m, double printed_per_1000_ft, int awg) {
    if (printed_per_1000_ft > 0) {
        EXPECT_NEAR(ohm_per_m * feet_1000_in_metre / printed_per_1000_ft, 1.0, 0.0005) << awg;
    }
}

TEST(GaugeLimits, ReproduceThePrintedOnes) {
    for (const auto& row : limit_rows) {
        const auto diameter = awg_diameter_limits_m(row.awg);
        ASSERT_TRUE(diameter.has_value()) << row.awg;
        EXPECT_NEAR(diameter->minimum / metre_per_mil, row.minimum_mil, 1e-9) << row.awg;
        EXPECT_NEAR(diameter->nominal / metre_per_mil, row.nominal_mil, 1e-9) << row.awg;
        EXPECT_NEAR(diameter->maximum / metre_per_mil, row.maximum_mil, 1e-9) << row.awg;
        EXPECT_EQ(diameter->basis, Basis::published) << row.awg;

        const auto resistance = awg_resistance_limits_ohm_per_m(row.awg);
        ASSERT_TRUE(resistance.has_value()) << row.awg;
        expect_printed(resistance->minimum, row.minimum_ohm, row.awg);
        expect_printed(resistance->nominal, row.nominal_ohm, row.awg);
        expect_printed(resistance->maximum, row.maximum_ohm, row.awg);
    }
}

TEST(GaugeLimits, OfTheThinnestAreThoseOfResistance) {
    // Highest resistance of 46 and 48 AWG, ohm per 1000 ft: the litz wire maker's technical information,
    // table 2.
    expect_printed(awg_resistance_limits_ohm_per_m(46)->maximum, 4544.0, 46);
    expect_printed(awg_resistance_limits_ohm_per_m(48)->maximum, 7285.0, 48);
    EXPECT_FALSE(awg_diameter_limits_m(46).has_value());
}

TEST(GaugeLimits, SayWhereTheyFollowAPatternOnly) {
    for (const int awg : {41, 43, 45, 47})
        EXPECT_EQ(awg_resistance_limits_ohm_per_m(awg)->basis, Basis::pattern) << awg;
    for (const int awg : {-3, 0, 10, 23, 49, 56}) {
        EXPECT_FALSE(awg_diameter_limits_m(awg).has_value()) << awg;
        EXPECT_FALSE(awg_resistance_limits_ohm_per_m(awg).has_value()) << awg;
    }
}

TEST(GaugeNames, WriteTheThickestWithZeros) {
    EXPECT_EQ(awg_name(-3), "0000");
    EXPECT_EQ(awg_name(-2), "000");
    EXPECT_EQ(awg_name(-1), "00");
    EXPECT_EQ(awg_name(0), "0");
    EXPECT_EQ(awg_name(42), "42");
}

std::string message_of(void (*action)()) {
    try {
        action();
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "accepted";
}

TEST(Gauge, RefusesSizesThatDoNotExist) {
    EXPECT_EQ(message_of([] { awg_diameter_m(57, AwgDiameter::exact); }),
              "57 AWG does not exist; give a gauge from 0000 (as -3) to 56");
    EXPECT_EQ(message_of([] { awg_diameter_m(-4, AwgDiameter::nominal); }),
              "-4 AWG does not exist; give a gauge from 0000 (as -3) to 56");
    EXPECT_EQ(message_of([] { circle_area_m2(0.0); }),
              "a wire diameter of 0 m is none; give one above 0, in metre");
    EXPECT_EQ(message_of([] { ohm_per_metre_20(-6e-5); }),
              "a wire diameter of -6e-05 m is none; give one above 0, in metre");
    EXPECT_EQ(message_of([] { circle_area_m2(std::nan("")); }),
              "a wire diameter of nan m is none; give one above 0, in metre");
}

} // namespace
} // namespace coilward
