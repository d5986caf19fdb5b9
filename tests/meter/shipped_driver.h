#pragma once

#include "meter/driver_folder.h"
#include "meter/measurement.h"

#include <stdexcept>
#include <string>

namespace coilward {

inline const Driver& shipped_driver(std::string_view id) {
    static const std::vector<Driver> drivers = load_drivers(COILWARD_SOURCE_DIR "/drivers");
    const Driver* driver = driver_named(drivers, id);
    if (!driver) throw std::runtime_error("no such driver: " + std::string(id));
    return *driver;
}

/// The meter set for a request in words, as "inductance series 1000".
inline MeterSetting setting_of(const Driver& driver, std::string_view words) {
    const auto request = request_from_text(words).value();
    const MeterSetup* setup = setup_for(driver, request);
    if (!setup) throw std::runtime_error("no such setup: " + std::string(words));
    return setting_for(*setup, frequency_for(*setup, request));
}

} // namespace coilward
