#pragma once

#include "bench/capture.h"
#include "bench/expected_readings.h"
#include "meter/driver_folder.h"
#include "reading/examination_json.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <ostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

/// The shipped drivers and captures, found by looking: a new one is under test as soon as its files are
/// there.
namespace coilward {

inline const std::vector<Driver>& shipped_drivers() {
    static const std::vector<Driver> drivers = load_drivers(COILWARD_SOURCE_DIR "/drivers");
    return drivers;
}

inline const Driver& shipped_driver(std::string_view id) {
    const Driver* driver = driver_named(shipped_drivers(), id);
    if (!driver) throw std::runtime_error("no such driver: " + std::string(id));
    return *driver;
}

inline std::vector<std::filesystem::path> shipped_captures() {
    std::vector<std::filesystem::path> files;
    for (const auto& each : std::filesystem::recursive_directory_iterator(COILWARD_SOURCE_DIR "/captures"))
        if (each.path().extension() == ".capture") files.push_back(each.path());
    std::ranges::sort(files);
    return files;
}

/// The name of the folder: a driver's id, or "nobody".
inline std::string owner_of(const std::filesystem::path& capture) {
    return capture.parent_path().filename().string();
}

inline std::vector<Reading> expected_readings(const std::filesystem::path& capture) {
    return read_expected(expected_file_of(capture));
}

inline std::string all_received(const Capture& capture) {
    std::string bytes;
    for (const CaptureEvent& event : capture.events)
        if (event.kind == CaptureEvent::Kind::received) bytes += event.bytes;
    return bytes;
}

/// For test names: letters, digits and underscores.
inline std::string test_name(const std::filesystem::path& capture) {
    std::string text = owner_of(capture) + "__" + capture.stem().string();
    std::ranges::replace_if(
        text, [](char c) { return !std::isalnum(static_cast<unsigned char>(c)); }, '_');
    return text;
}

inline std::string listed(const std::vector<Reading>& readings) {
    std::string text;
    for (const Reading& reading : readings)
        text += reading_to_json(reading) + "\n";
    return text;
}

inline testing::AssertionResult same_readings(const std::vector<Reading>& got,
                                              const std::vector<Reading>& wanted) {
    if (std::ranges::equal(got, wanted, same_reading)) return testing::AssertionSuccess();
    return testing::AssertionFailure() << "got:\n" << listed(got) << "expected:\n" << listed(wanted);
}

} // namespace coilward
