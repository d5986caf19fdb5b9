#include "meter/decoder.h"
#include "shipped_driver.h"

#include <algorithm>
#include <cmath>
#include <ostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

/// A simulated meter's frames, read again by the driver that they belong to: every frame driver, in each of
/// its setups, is found by looking.
namespace coilward {
namespace {

struct Case {
    std::string driver;
    std::size_t setup;
};

void PrintTo(const Case& each, std::ostream* out) {
    *out << each.driver << ", setup " << each.setup;
}

/// What is on the display: a coil's numbers, each with few enough digits for any of these meters.
double shown_for(Quantity quantity) {
    switch (quantity) {
    case Quantity::inductance:
        return 2.331;
    case Quantity::capacitance:
        return 1.12e-9;
    case Quantity::ac_resistance:
    case Quantity::dc_resistance:
        return 7350.0;
    case Quantity::temperature:
        return 23.9;
    case Quantity::dc_voltage:
        return -0.0123;
    case Quantity::quality_factor:
        return 2.34;
    case Quantity::dissipation_factor:
        return 0.015;
    default:
        return 1.0;
    }
}

class EveryShownFrame : public testing::TestWithParam<Case> {
protected:
    const Driver& driver = shipped_driver(GetParam().driver);
    const MeterSetup& setup = driver.setups.at(GetParam().setup);
    MeterSetting setting = setting_for(setup, frequency_for(setup, {}));

    std::vector<DecodedReading> read(const std::vector<std::optional<double>>& values) const {
        std::string bytes;
        for (int i = 0; i < driver.repeats; ++i)
            bytes += driver.show(values, setting);
        Decoder decoder(driver, setting);
        decoder.begin_frame();
        std::vector<DecodedReading> readings;
        decoder.feed(bytes, [&](const Frame& frame) {
            readings.insert(readings.end(), frame.readings.begin(), frame.readings.end());
        });
        EXPECT_FALSE(decoder.is_mid_frame());
        return readings;
    }
};

TEST_P(EveryShownFrame, IsReadAsItWasShown) {
    std::vector<std::optional<double>> values;
    for (const Quantity quantity : setup.gives)
        values.emplace_back(shown_for(quantity));
    const auto readings = read(values);
    ASSERT_EQ(readings.size(), values.size());
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const Reading& reading = readings[i].reading;
        EXPECT_EQ(reading.quantity, setup.gives[i]);
        EXPECT_EQ(reading.frequency_hz,
                  needs_frequency(setup.gives[i]) ? setting.frequency_hz : std::nullopt);
        if (has_circuit(setup.gives[i])) {
            EXPECT_EQ(reading.circuit, setup.circuit);
        }
        ASSERT_TRUE(reading.value);
        EXPECT_NEAR(*reading.value, *values[i], 1e-9 * std::abs(*values[i])) << name(setup.gives[i]);
    }
}

TEST_P(EveryShownFrame, NeverGivesANumberWhereThereIsNone) {
    for (const DecodedReading& each : read(std::vector<std::optional<double>>(setup.gives.size()))) {
        EXPECT_FALSE(each.reading.value);
        EXPECT_EQ(each.reading.state, State::over_range);
    }
}

std::vector<Case> cases() {
    std::vector<Case> all;
    for (const Driver& driver : load_drivers(COILWARD_SOURCE_DIR "/drivers"))
        for (std::size_t i = 0; driver.show && i < driver.setups.size(); ++i)
            all.push_back({driver.id, i});
    return all;
}

INSTANTIATE_TEST_SUITE_P(Shipped, EveryShownFrame, testing::ValuesIn(cases()), [](const auto& each) {
    std::string text = each.param.driver + "_" + std::to_string(each.param.setup);
    std::ranges::replace(text, '-', '_');
    return text;
});

} // namespace
} // namespace coilward
