#pragma once

#include "examples.h"

#include <cfloat>
#include <limits>
#include <vector>

namespace coilward::testing {

/// Readings that between them have every word, every member and awkward numbers.
inline std::vector<Reading> every_kind_of_reading() {
    std::vector<Reading> readings;
    const auto base = [] { return dc_resistance(6112.0); };
    for (int n = 0; n <= static_cast<int>(Quantity::magnet_pole); ++n) {
        readings.push_back(base());
        readings.back().quantity = static_cast<Quantity>(n);
    }
    for (int n = 0; n <= static_cast<int>(Between::leads_frame); ++n) {
        readings.push_back(base());
        readings.back().between = static_cast<Between>(n);
    }
    for (const auto circuit : {Circuit::series, Circuit::parallel}) {
        readings.push_back(base());
        readings.back().circuit = circuit;
        readings.back().frequency_hz = 1000.0;
    }
    for (const auto handling : {Handling::warmed, Handling::pressed, Handling::lifted}) {
        readings.push_back(base());
        readings.back().handling = handling;
    }
    for (const auto polarity : {Polarity::as_expected, Polarity::reversed, Polarity::none})
        readings.push_back({.quantity = Quantity::polarity, .polarity = polarity, .coil = "screw"});
    readings.push_back({.quantity = Quantity::insulation_resistance,
                        .between = Between::start_frame,
                        .state = State::over_range,
                        .limit = 2.0e7});
    readings.push_back({.quantity = Quantity::dc_resistance, .state = State::under_range, .limit = 0.1});
    readings.push_back(
        {.quantity = Quantity::dc_resistance, .state = State::unstable, .value = 8e5, .spread = 3e5});
    readings.push_back({.quantity = Quantity::temperature, .value = -0.5});
    for (const double number :
         {0.0, 1.0 / 3.0, DBL_MIN, DBL_MAX, -DBL_MAX, std::numeric_limits<double>::denorm_min(),
          9007199254740993.0, 1e22, 4.6e-11, 2.331}) {
        readings.push_back(base());
        readings.back().value = readings.back().standard_uncertainty = number;
        readings.back().frequency_hz = readings.back().limit = readings.back().spread = number;
    }
    return readings;
}

} // namespace coilward::testing
