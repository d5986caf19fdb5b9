#include "bench/expected_readings.h"

#include "reading/examination_json.h"

#include <cmath>
#include <fstream>
#include <optional>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr double last_bits = 1e-13;

bool close(std::optional<double> a, std::optional<double> b) {
    if (!a || !b) return a.has_value() == b.has_value();
    return std::abs(*a - *b) <= last_bits * std::abs(*b);
}

} // namespace

std::filesystem::path expected_file_of(std::filesystem::path capture) {
    return capture.replace_extension(".expected.jsonl");
}

Reading expected_reading(std::string line) {
    // A readings document does not allow it: a reading whose frequency nobody knows decides nothing.
    constexpr std::string_view not_stated = R"("frequency":"not stated")";
    const std::size_t at = line.find(not_stated);
    if (at != std::string::npos) line.replace(at, not_stated.size(), R"("frequency":1)");
    Reading reading = reading_from_json(line);
    if (at != std::string::npos) reading.frequency_hz.reset();
    return reading;
}

std::vector<Reading> read_expected(const std::filesystem::path& file) {
    std::ifstream in(file);
    if (!in) throw BadDocument(fmt::format("{}: cannot be read; check its name", file.string()));
    std::vector<Reading> readings;
    int number = 0;
    for (std::string line; std::getline(in, line);) {
        ++number;
        try {
            readings.push_back(expected_reading(line));
        } catch (const BadDocument& error) {
            throw BadDocument(fmt::format("{}:{}: {}", file.string(), number, error.what()));
        }
    }
    return readings;
}

bool same_reading(Reading a, Reading b) {
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

} // namespace coilward
