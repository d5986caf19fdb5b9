#include "rules/case_readings.h"

#include "reading/examination_json.h"
#include "reading/reading_json.h"

#include <array>
#include <cmath>

namespace coilward {
namespace {

using nlohmann::json;

constexpr std::array<std::string_view, 11> members{"quantity", "value",   "unit",      "standard_uncertainty",
                                                   "between",  "circuit", "frequency", "state",
                                                   "limit",    "spread",  "coil"};

/// A whole number is one however it is written, so that a complaint shows 6000 and not 6000.0.
json json_number(double number) {
    constexpr double written_out_below = 1e16;
    if (std::abs(number) < written_out_below && std::trunc(number) == number)
        return static_cast<std::int64_t>(number);
    return number;
}

/// A value that no member may have, as a list or a date, becomes text, which the readings form then refuses.
json json_value(const TomlNode& node) {
    if (const auto* text = std::get_if<std::string>(&node.value)) return *text;
    if (const auto* whole = std::get_if<std::int64_t>(&node.value)) return *whole;
    const auto* number = std::get_if<double>(&node.value);
    if (number && std::isfinite(*number)) return json_number(*number);
    return shown(node);
}

Reading reading_in(const TomlTable& table) {
    json object = json::object();
    for (const TomlEntry& each : table)
        object.emplace(each.key, json_value(each.node));
    return reading_at({&object, ""}, {});
}

} // namespace

std::vector<Reading> read_case_readings(TableReader& worked_case) {
    std::vector<Reading> readings;
    for (TableReader& reading : worked_case.tables("readings", Need::required)) {
        reading.know(members);
        reading.refuse_unknown_keys();
        try {
            readings.push_back(reading_in(reading.content()));
        } catch (const BadDocument& bad) {
            reading.complain(ComplaintKind::bad_reading, bad.what());
        }
    }
    return readings;
}

} // namespace coilward
