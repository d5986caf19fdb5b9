#include "diagnosis/kick.h"
#include "diagnosis/unknown.h"

#include <gtest/gtest.h>

namespace coilward {
namespace {

Fault read_on_a_voltmeter() {
    Fault fault;
    fault.polarity = {.as_expected = 0.97, .reversed = 0.02, .none = 0.01};
    fault.kick_read_across_ohm = 10e6;
    return fault;
}

Values with_series_resistance(double ohm) {
    Values values{};
    at(values, Unknown::series_resistance) = to_measure(Unknown::series_resistance, ohm);
    return values;
}

struct Divided {
    double series_ohm;
    double seen; ///< of the voltage: 10 MΩ / (10 MΩ + R), a voltage divider worked by hand
};

TEST(Kick, IsDividedBetweenSeriesResistanceAndVoltmeter) {
    for (const auto& [series_ohm, seen] :
         {Divided{1.0, 0.9999999}, Divided{1e6, 10.0 / 11.0}, Divided{10e6, 0.5}, Divided{90e6, 0.1}}) {
        SCOPED_TRACE(series_ohm);
        const PolarityChances chances =
            kick_chances(read_on_a_voltmeter(), with_series_resistance(series_ohm));
        EXPECT_NEAR(chances.as_expected, 0.97 * seen, 1e-9);
        EXPECT_NEAR(chances.reversed, 0.02 * seen, 1e-9);
        EXPECT_NEAR(chances.none, 1.0 - 0.99 * seen, 1e-9);
    }
}

TEST(Kick, OfAFaultThatNamesNoVoltmeterIsAsItsFileSays) {
    Fault fault = read_on_a_voltmeter();
    fault.kick_read_across_ohm.reset();
    EXPECT_EQ(chance_of(Polarity::none, kick_chances(fault, with_series_resistance(90e6))), 0.01);
    EXPECT_EQ(greatest_chance_of_kick(Polarity::none, fault), 0.01);
}

TEST(Kick, IsNeverLikelierThanTheGreatestChance) {
    const Fault fault = read_on_a_voltmeter();
    for (const double ohm : {1.0, 1e4, 1e6, 1e8, 1e12})
        for (const Polarity answer : {Polarity::as_expected, Polarity::reversed, Polarity::none})
            EXPECT_LE(chance_of(answer, kick_chances(fault, with_series_resistance(ohm))),
                      greatest_chance_of_kick(answer, fault));
}

} // namespace
} // namespace coilward
