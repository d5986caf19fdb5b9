#include "wire/circle.h"
#include "wire/copper.h"
#include "wire/gauge.h"

#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>
#include <string>

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct TemperatureRow {
    double temperature_c;
    double alpha_per_kelvin;
    double ratio_to_20;
};

// Computed from α_t = 1 / (T0 + t) with T0 = 1 / 0.00393 − 20, to the digits given. The rule is printed in a
// micro-ohm meter manual (Hioki RM3545, appendix 4).
const TemperatureRow temperature_rows[] = {
    {-10, 0.0044552772, 0.8821}, {0, 0.0042652485, 0.9214},   {10, 0.0040907671, 0.9607},
    {15, 0.0040087724, 0.98035}, {18, 0.0039611345, 0.99214}, {20, 0.00393, 1.0},
    {22, 0.0038993511, 1.00786}, {23, 0.0038842052, 1.01179}, {25, 0.0038542637, 1.01965},
    {30, 0.0037813913, 1.0393},  {35, 0.0037112234, 1.05895}, {40, 0.0036436121, 1.0786},
    {50, 0.0035155202, 1.1179},  {75, 0.0032315093, 1.21615}, {100, 0.0029899574, 1.3144},
};

TEST(CopperTemperature, FollowsTheLinearLaw) {
    for (const auto& row : temperature_rows) {
        EXPECT_NEAR(copper_alpha_at(row.temperature_c), row.alpha_per_kelvin, 5.1e-11) << row.temperature_c;
        EXPECT_NEAR(resistance_at_ohm(6000.0, row.temperature_c), 6000.0 * row.ratio_to_20, 1e-9)
            << row.temperature_c;
        EXPECT_NEAR(resistance_at_20_ohm(6000.0 * row.ratio_to_20, row.temperature_c), 6000.0, 1e-9)
            << row.temperature_c;
        EXPECT_NEAR(conductor_temperature_c(6000.0 * row.ratio_to_20, 6000.0), row.temperature_c, 1e-9);
    }
}

TEST(CopperConstants, AreThoseOfTheInternationalStandard) {
    // Resistivity 1/58 = 0.0172413793 ohm mm²/m: industrial power engineering handbook, p. 970.
    const double one_mm2_m = 2e-3 / std::sqrt(std::numbers::pi);
    EXPECT_NEAR(ohm_per_metre_20(one_mm2_m), 0.0172413793, 5e-11);
    // 10.371215 ohm cmil/ft, computed; handbooks print 10.371.
    EXPECT_NEAR(ohm_per_metre_20(metre_per_mil) * 0.3048, 10.371215, 5e-7);
    // T0 = 234.452926 °C, computed; handbooks round to 234.5.
    EXPECT_NEAR(1.0 / copper_alpha_at(0.0), 234.452926, 5e-7);
    // Nominal conductivity of winding wire is 100.86 % IACS, computed.
    EXPECT_NEAR(winding_wire_conductivity_s_per_m / iacs_conductivity_s_per_m, 1.0086, 5e-5);
}

TEST(CopperConstants, FollowTheConductivity) {
    // Same manual: tinned wire of 0.10 to 0.26 mm has C = 0.93 and "about 3650 ppm/K"; bare wire below 0.26
    // mm 0.98.
    EXPECT_NEAR(copper_alpha_20(0.93), 0.0036549, 5e-8);
    EXPECT_NEAR(copper_alpha_20(0.93), 3650e-6, 5.1e-6);
    EXPECT_NEAR(copper_alpha_20(0.98), 0.0038514, 5e-8);
    EXPECT_NEAR(1e6 / (0.98 * iacs_conductivity_s_per_m), 0.017593, 5e-7);
    EXPECT_NEAR(copper_alpha_20(58.5 / 58.0), 0.003964, 5e-7);
    EXPECT_NEAR(copper_alpha_at(20.0, 0.93), 0.0036549, 5e-8);
}

std::string message_of(void (*action)()) {
    try {
        action();
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "accepted";
}

TEST(Copper, RefusesWhatTheLinearLawCannotGive) {
    const std::string too_cold =
        " degC the linear law of resistance and temperature does not hold; give a temperature "
        "above -234.5 degC";
    EXPECT_EQ(message_of([] { resistance_at_20_ohm(6000.0, -240.0); }), "at -240" + too_cold);
    EXPECT_EQ(message_of([] { resistance_at_ohm(6000.0, std::numeric_limits<double>::quiet_NaN()); }),
              "at nan" + too_cold);
    EXPECT_EQ(message_of([] { copper_alpha_at(-235.0); }), "at -235" + too_cold);
    EXPECT_EQ(message_of([] { copper_alpha_20(0.0); }),
              "a relative conductivity of 0 is impossible; give one above 0");
    EXPECT_EQ(message_of([] { ohm_per_metre_20(6e-5, -1.0); }),
              "a conductivity of -1 is impossible; give one above 0");
    EXPECT_EQ(message_of([] { conductor_temperature_c(-1.0, 6000.0); }),
              "a resistance of -1 is impossible; give one above 0");
}

} // namespace
} // namespace coilward
