#include "units/engineering.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

struct Typed {
    const char* text;
    const char* unit;
    double value;
};

// Letters in place of the decimal point: IEC 60062.
const Typed typed[] = {
    {"6112", "ohm", 6112.0},
    {"6.11k", "ohm", 6110.0},
    {"6k11", "ohm", 6110.0},
    {"6k11Ω", "ohm", 6110.0},
    {"-6k11 ohm", "ohm", -6110.0},
    {"4R7", "ohm", 4.7},
    {"4R", "ohm", 4.0},
    {"6.11 K", "ohm", 6110.0},
    {"2.3 H", "H", 2.3},
    {"2H", "H", 2.0},
    {"2300mH", "H", 2.3},
    {"46 pF", "F", 46e-12},
    {"46p", "F", 46e-12},
    {"4n7", "F", 4.7e-9},
    {"4n7F", "F", 4.7e-9},
    {"2u2", "F", 2.2e-6},
    {"2.2 µF", "F", 2.2e-6},
    {"2.2 \u03bcF", "F", 2.2e-6},
    {"1e3", "ohm", 1000.0},
    {"1E+3", "ohm", 1000.0},
    {"4.6e-11", "F", 4.6e-11},
    {"1e3 k", "ohm", 1e6},
    {"6,11 kohm", "ohm", 6110.0},
    {"6,112k", "ohm", 6112.0},
    {"20 MΩ", "ohm", 20e6},
    {"20 M\u2126", "ohm", 20e6},
    {"20 MOhm", "ohm", 20e6},
    {".5", "V", 0.5},
    {"5.", "V", 5.0},
    {"+5", "V", 5.0},
    {"-0.3 mV", "V", -0.0003},
    {"  21.4 ", "degC", 21.4},
    {"21.4°C", "degC", 21.4},
    {"21.4 degC", "degC", 21.4},
    {"2.22", "1", 2.22},
    {"1 kHz", "Hz", 1000.0},
    {"0.1", "ohm", 0.1},
    {"0", "ohm", 0.0},
    {"1.2 rad", "rad", 1.2},
    {"6112\r\n", "ohm", 6112.0},
};

TEST(ParseEngineering, ReadsWhatPeopleType) {
    for (const auto& row : typed) {
        const auto value = parse_engineering(row.text, row.unit);
        ASSERT_TRUE(value.has_value()) << row.text;
        EXPECT_EQ(*value, row.value) << row.text;
    }
}

struct Refused {
    const char* text;
    const char* unit;
};

const Refused refused[] = {
    {"", "ohm"},
    {"   ", "ohm"},
    {"k", "ohm"},
    {"ohm", "ohm"},
    {"-", "ohm"},
    {".", "ohm"},
    {"6.11 H", "ohm"},
    {"6.11 kH", "ohm"},
    {"6.11 q", "ohm"},
    {"6.1k1", "ohm"},
    {"6k1k", "ohm"},
    {"6kk", "ohm"},
    {"1,234.5", "ohm"},
    {"1.234,5", "ohm"},
    {"6 112", "ohm"},
    {"nan", "ohm"},
    {"inf", "ohm"},
    {"0x10", "ohm"},
    {"1e", "ohm"},
    {"1e9999", "ohm"},
    {"1e400", "ohm"},
    {"1e308 k", "ohm"},
    {"2.2k", "1"},
    {"21.4 mdegC", "degC"},
    {"21.4 k", "degC"},
    {"70 F", "degC"},
    {"--5", "ohm"},
    {"5-", "ohm"},
    {"2H3H", "H"},
    {"k11", "ohm"},
    {"1e2147483647k", "ohm"},
    {"5 5k", "ohm"},
};

TEST(ParseEngineering, RefusesWhatIsNoSuchNumber) {
    for (const auto& row : refused)
        EXPECT_FALSE(parse_engineering(row.text, row.unit).has_value()) << row.text << " as " << row.unit;
}

TEST(ParseEngineering, ReadsBackWhatIsShown) {
    const double values[] = {6112.0, -6112.0, 0.0, 4.6e-11, 2.331, 1e-15, 20e6, 1e12, 999.9, 1e18, 1e-20};
    for (const char* unit : {"ohm", "H", "F", "Hz", "V", "degC", "rad", "1"})
        for (const double value : values) {
            const auto text = engineering_shortest(value, unit);
            EXPECT_EQ(parse_engineering(text, unit), value) << text;
        }
}

} // namespace
} // namespace coilward
