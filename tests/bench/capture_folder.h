#pragma once

#include "bench/capture.h"
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

inline std::filesystem::path expected_file_of(std::filesystem::path capture) {
    return capture.replace_extension(".expected.jsonl");
}

/// One line of an expected file. A multimeter does not say at which frequency it measured a capacitance: "not
/// stated", which a readings document does not allow.
inline Reading expected_reading(std::string line) {
    constexpr std::string_view not_stated = R"("frequency":"not stated")";
    const std::size_t at = line.find(not_stated);
    if (at != std::string::npos) line.replace(at, not_stated.size(), R"("frequency":1)");
    Reading reading = reading_from_json(line);
    if (at != std::string::npos) reading.frequency_hz.reset();
    return reading;
}

inline std::vector<Reading> expected_readings(const std::filesystem::path& capture) {
    std::vector<Reading> readings;
    std::ifstream in(expected_file_of(capture));
    for (std::string line; std::getline(in, line);)
        readings.push_back(expected_reading(line));
    return readings;
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

/// The same reading: states and words exactly, numbers to the last bits of their decimal conversion. What the
/// meter's accuracy adds is no part of the bytes.
inline bool same_reading(Reading a, Reading b) {
    const auto close = [](std::optional<double> x, std::optional<double> y) {
        if (!x || !y) return x.has_value() == y.has_value();
        return std::abs(*x - *y) <= 1e-13 * std::abs(*y);
    };
    if (!close(a.value, b.value) || !close(a.limit, b.limit) || !close(a.frequency_hz, b.frequency_hz))
        return false;
    for (Reading* each : {&a, &b}) {
        each->value.reset();
        each->limit.reset();
        each->frequency_hz.reset();
        each->standard_uncertainty.reset();
    }
    return a == b;
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
