#include "units/engineering.h"

#include <limits>

#include <gtest/gtest.h>

namespace coilward {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

struct Shown {
    double value;
    const char* unit;
    int digits;
    const char* text;
};

// Prefixes: SI Brochure, 9th edition, table 7. Ties: IEC 60559, to even, where the double is exactly a tie.
const Shown shown[] = {
    {6112.0, "ohm", 4, "6.112 kΩ"},   {-6112.0, "ohm", 4, "-6.112 kΩ"},
    {0.0, "ohm", 4, "0 Ω"},           {-0.0, "ohm", 4, "0 Ω"},
    {999.94, "ohm", 4, "999.9 Ω"},    {999.96, "ohm", 4, "1.000 kΩ"},
    {-999.96, "ohm", 4, "-1.000 kΩ"}, {999960.0, "ohm", 4, "1.000 MΩ"},
    {0.99996, "H", 4, "1.000 H"},     {0.09999, "H", 4, "99.99 mH"},
    {999.6e-12, "F", 3, "1.00 nF"},   {2.331, "H", 4, "2.331 H"},
    {4.6e-11, "F", 2, "46 pF"},       {4.6e-11, "F", 4, "46.00 pF"},
    {2.2e-6, "F", 2, "2.2 µF"},       {1e-15, "F", 3, "1.00 fF"},
    {2.0e7, "ohm", 3, "20.0 MΩ"},     {3.5e7, "ohm", 1, "40 MΩ"},
    {123.0, "ohm", 2, "120 Ω"},       {123.0, "ohm", 1, "100 Ω"},
    {123.0, "ohm", 0, "100 Ω"},       {1e12, "ohm", 3, "1.00 TΩ"},
    {1e18, "ohm", 4, "1.000e18 Ω"},   {1e-20, "F", 2, "1.0e-20 F"},
    {1000.0, "Hz", 4, "1.000 kHz"},   {0.0021, "V", 2, "2.1 mV"},
    {21.4, "degC", 3, "21.4 °C"},     {-5.04, "degC", 2, "-5.0 °C"},
    {0.05, "degC", 2, "0.050 °C"},    {1.146, "rad", 3, "1.15 rad"},
    {2.22, "1", 3, "2.22"},           {0.0123, "1", 3, "0.0123"},
    {7800.0, "1", 4, "7800"},         {99995.0, "1", 4, "100000"},
    {1.25e-9, "1", 3, "1.25e-9"},     {nan, "ohm", 4, "not a number"},
    {infinity, "ohm", 4, "infinity"}, {-infinity, "H", 4, "minus infinity"},
};

TEST(Engineering, ShowsNumbersForPeople) {
    for (const auto& row : shown)
        EXPECT_EQ(engineering(row.value, row.unit, row.digits), row.text) << row.value << " " << row.unit;
}

struct ShortestShown {
    double value;
    const char* unit;
    const char* text;
};

const ShortestShown shortest_shown[] = {
    {1000.0, "Hz", "1 kHz"},      {120.0, "Hz", "120 Hz"},       {100.0, "Hz", "100 Hz"},
    {1234.5, "Hz", "1.2345 kHz"}, {1e5, "Hz", "100 kHz"},        {0.1, "V", "100 mV"},
    {20.0, "degC", "20 °C"},      {-20.25, "degC", "-20.25 °C"}, {2.5e-6, "F", "2.5 µF"},
    {0.0, "Hz", "0 Hz"},          {infinity, "Hz", "infinity"},  {300.0, "1", "300"},
};

TEST(Engineering, ShowsWhatWasSetWithNoMoreDigitsThanItHas) {
    for (const auto& row : shortest_shown)
        EXPECT_EQ(engineering_shortest(row.value, row.unit), row.text) << row.value << " " << row.unit;
}

struct UncertainShown {
    double value;
    double standard_uncertainty;
    const char* unit;
    const char* text;
};

// The rounding examples 0.827 ± 0.119 and 0.827 ± 0.367 are those of the Review of Particle Physics,
// section 5.3.
const UncertainShown uncertain_shown[] = {
    {0.827, 0.119, "1", "0.83 ± 0.12"},
    {0.827, 0.367, "1", "0.8 ± 0.4"},
    {6112.0, 9.0, "ohm", "6.112 ± 0.009 kΩ"},
    {-6112.0, 9.0, "ohm", "-6.112 ± 0.009 kΩ"},
    {6580.0, 30.0, "ohm", "6.580 ± 0.030 kΩ"},
    {2.331, 0.008, "H", "2.331 ± 0.008 H"},
    {4.6e-11, 5e-13, "F", "46.0 ± 0.5 pF"},
    {21.4, 0.5, "degC", "21.4 ± 0.5 °C"},
    {2.22, 0.02, "1", "2.220 ± 0.020"},
    {999.96, 0.5, "ohm", "1.0000 ± 0.0005 kΩ"},
    {999.4, 0.5, "ohm", "999.4 ± 0.5 Ω"},
    {100.0, 0.0996, "ohm", "100.00 ± 0.10 Ω"},
    {104.0, 40.0, "ohm", "100 ± 40 Ω"},
    {0.3, 9.0, "ohm", "0 ± 9 Ω"},
    {-0.3, 9.0, "ohm", "0 ± 9 Ω"},
    {0.002, 9000.0, "ohm", "0 ± 9 kΩ"},
    {0.0, 0.5, "degC", "0.0 ± 0.5 °C"},
    {6112.0, 0.0, "ohm", "6.112 kΩ ± 0 Ω"},
    {6112.0, infinity, "ohm", "6.112 kΩ ± infinity"},
    {6112.0, nan, "ohm", "6.112 kΩ ± not a number"},
    {infinity, 1.0, "ohm", "infinity ± 1.000 Ω"},
};

TEST(Engineering, GivesNumberAndUncertaintyTheSamePrefixAndLastDigit) {
    for (const auto& row : uncertain_shown)
        EXPECT_EQ(engineering_with_uncertainty(row.value, row.standard_uncertainty, row.unit), row.text)
            << row.value << " " << row.standard_uncertainty;
}

struct RangeShown {
    double low;
    double high;
    const char* unit;
    int digits;
    const char* text;
};

const RangeShown ranges_shown[] = {
    {5720.0, 6630.0, "ohm", 3, "5.72 to 6.63 kΩ"},
    {950.0, 1050.0, "ohm", 3, "0.950 to 1.05 kΩ"},
    {980.0, 999.6, "ohm", 3, "0.980 to 1.00 kΩ"},
    {70e-12, 155e-12, "F", 3, "70.0 to 155 pF"},
    {912.0, 99.9e3, "ohm", 3, "0.912 to 99.9 kΩ"},
    {912.0, 7.16e6, "ohm", 3, "912 Ω to 7.16 MΩ"},
    {-26.1, 0.0096, "H", 3, "-26.1 H to 9.60 mH"},
    {0.0004, 2.0, "1", 3, "0.000400 to 2.00"},
    {-0.5, 0.5, "V", 2, "-500 to 500 mV"},
    {0.0, 6630.0, "ohm", 3, "0 to 6.63 kΩ"},
    {-6630.0, 0.0, "ohm", 3, "-6.63 to 0 kΩ"},
    {0.0, 0.0, "ohm", 3, "0 to 0 Ω"},
    {2.0, 2.7, "1", 3, "2.00 to 2.70"},
    {18.0, 24.5, "degC", 3, "18.0 to 24.5 °C"},
    {20e6, infinity, "ohm", 3, "20.0 MΩ to infinity"},
};

TEST(Engineering, GivesBothEndsOfARangeOnePrefixUnlessTheyAreFarApart) {
    for (const auto& row : ranges_shown)
        EXPECT_EQ(engineering_range(row.low, row.high, row.unit, row.digits), row.text);
}

} // namespace
} // namespace coilward
