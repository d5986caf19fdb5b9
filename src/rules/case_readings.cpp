#include "rules/case_readings.h"

#include "reading/examination_json.h"

#include <array>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace coilward {
namespace {

constexpr std::array<std::string_view, 11> members{"quantity", "value",   "unit",      "standard_uncertainty",
                                                   "between",  "circuit", "frequency", "state",
                                                   "limit",    "spread",  "coil"};

std::string json_text(std::string_view text) {
    std::string json = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\')
            json += fmt::format("\\{}", c);
        else if (static_cast<unsigned char>(c) < 0x20)
            json += fmt::format("\\u{:04x}", c);
        else
            json += c;
    }
    return json + "\"";
}

/// A value that no member may have, as a list or a date, becomes text, which the readings form then refuses.
std::string json_value(const TomlNode& node) {
    if (const auto* text = std::get_if<std::string>(&node.value)) return json_text(*text);
    if (const auto* whole = std::get_if<std::int64_t>(&node.value)) return fmt::format("{}", *whole);
    const auto* number = std::get_if<double>(&node.value);
    if (number && std::isfinite(*number)) return fmt::format("{}", *number);
    return json_text(shown(node));
}

std::string json_object(const TomlTable& table) {
    std::vector<std::string> fields;
    for (const TomlEntry& each : table)
        fields.push_back(fmt::format("{}:{}", json_text(each.key), json_value(each.node)));
    return fmt::format("{{{}}}", fmt::join(fields, ","));
}

} // namespace

std::string read_case_readings(TableReader& worked_case) {
    std::vector<std::string> readings;
    for (TableReader& reading : worked_case.tables("readings", Need::required)) {
        reading.know(members);
        reading.refuse_unknown_keys();
        try {
            readings.push_back(reading_to_json(reading_from_json(json_object(reading.content()))));
        } catch (const BadDocument& bad) {
            reading.complain(ComplaintKind::bad_reading, bad.what());
        }
    }
    return fmt::format("[{}]", fmt::join(readings, ", "));
}

} // namespace coilward
