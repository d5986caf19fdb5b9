#include "meter/line_fields.h"

#include <algorithm>
#include <cmath>

namespace coilward {
namespace {

/// Splits "L=1.5E-6" or "CP 1.2E-6" into name and rest. A bare number has the empty name.
std::optional<NamedValue> take_key(std::string_view& text, const LineProtocol& protocol) {
    std::string key;
    if (!protocol.keys.empty()) {
        const std::size_t joiner = text.find(protocol.key_joiner);
        if (joiner != std::string_view::npos) {
            key = text.substr(0, joiner);
            text = trimmed(text.substr(joiner + protocol.key_joiner.size()));
        }
    } else {
        return NamedValue{};
    }
    const auto known = protocol.keys.find(key);
    if (known == protocol.keys.end()) return std::nullopt;
    return known->second;
}

std::optional<NamedValue> unit_named(std::string_view text, const LineProtocol& protocol) {
    if (protocol.units.empty() && text.empty()) return NamedValue{};
    const auto known = protocol.units.find(std::string(text));
    if (known == protocol.units.end()) return std::nullopt;
    return known->second;
}

/// What the name before the number leaves open, the unit behind it says.
NamedValue joined(const NamedValue& key, const NamedValue& unit) {
    return {.quantity = unit.quantity ? unit.quantity : key.quantity,
            .circuit = unit.circuit ? unit.circuit : key.circuit,
            .power = key.power + unit.power,
            .offset = unit.offset,
            .scale = key.scale * unit.scale};
}

const Sentinel* sentinel_of(double value, const LineProtocol& protocol) {
    // The instruments print these exactly; the tolerance is for the decimal conversion only.
    const auto is_it = [&](const Sentinel& sentinel) {
        return std::abs(std::abs(value) - sentinel.magnitude) <= 1e-12 * sentinel.magnitude;
    };
    const auto found = std::ranges::find_if(protocol.sentinels, is_it);
    return found == protocol.sentinels.end() ? nullptr : &*found;
}

bool has_allowed_form(const NumericResponse& number, const LineProtocol& protocol) {
    if (protocol.exponent_required && number.form != NumericResponse::Form::nr3) return false;
    return number.has_sign || !protocol.sign_required;
}

std::optional<FieldValue> value_of(std::string_view text, const LineProtocol& protocol) {
    if (const auto word = protocol.words.find(std::string(text)); word != protocol.words.end())
        return FieldValue{.meaning = word->second};
    const auto key = take_key(text, protocol);
    if (!key) return std::nullopt;
    const std::size_t length = numeric_response_length(text);
    const auto number = numeric_response(text.substr(0, length));
    if (!number || !has_allowed_form(*number, protocol)) return std::nullopt;
    const auto unit = unit_named(trimmed(text.substr(length)), protocol);
    if (!unit) return std::nullopt;
    FieldValue value{.named = joined(*key, *unit), .negative = number->value < 0.0};
    if (const Sentinel* sentinel = sentinel_of(number->value, protocol)) {
        value.meaning = sentinel->meaning;
        return value;
    }
    const auto scaled = numeric_response(text.substr(0, length), value.named.power);
    if (!scaled) return std::nullopt;
    value.value = value.named.scale * (scaled->value + value.named.offset);
    value.resolution = value.named.scale * scaled->resolution;
    return value;
}

std::optional<int> integer_of(std::string_view text) {
    const auto number = numeric_response(text);
    if (!number || number->form != NumericResponse::Form::nr1 || std::abs(number->value) > 1e6)
        return std::nullopt;
    return static_cast<int>(number->value);
}

/// "+1", "NOBIN", "BIN=2".
bool is_bin(std::string_view text) {
    const auto is_capital = [](char character) { return character >= 'A' && character <= 'Z'; };
    const std::size_t word =
        static_cast<std::size_t>(std::ranges::find_if_not(text, is_capital) - text.begin());
    text.remove_prefix(word);
    if (word > 0 && text.starts_with('=')) text.remove_prefix(1);
    return (word > 0 && text.empty()) || integer_of(text).has_value();
}

bool is_tagged(std::string_view text, std::string_view tag) {
    const std::size_t length = numeric_response_length(text);
    return length > 0 && trimmed(text.substr(length)) == tag;
}

bool is_printable(std::string_view text) {
    return std::ranges::all_of(text, [](char character) { return character >= ' ' && character <= '~'; });
}

/// Reads one field into `line`; false where it is not of its kind.
bool take_field(std::string_view text, const LineField& field, const LineProtocol& protocol,
                LineFields& line) {
    switch (field.kind) {
    case LineField::Kind::value:
    case LineField::Kind::values: {
        auto value = value_of(text, protocol);
        if (!value) return false;
        value->index = field.index;
        const bool number = value->meaning == Meaning::ok;
        if (number && std::abs(value->value) >= protocol.largest) line.beyond_measure = true;
        line.values.push_back(*value);
        return true;
    }
    case LineField::Kind::status:
        line.status = integer_of(text);
        return line.status.has_value();
    case LineField::Kind::bin:
        return is_bin(text);
    case LineField::Kind::integer:
        return integer_of(text).has_value();
    case LineField::Kind::tagged:
        return is_tagged(text, field.tag);
    case LineField::Kind::text:
        return is_printable(text);
    }
    return false;
}

} // namespace

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t";
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::vector<std::string_view> split(std::string_view line, std::string_view separator) {
    std::vector<std::string_view> fields;
    for (;;) {
        const std::size_t end = separator.empty() ? std::string_view::npos : line.find(separator);
        fields.push_back(trimmed(line.substr(0, end)));
        if (end == std::string_view::npos) return fields;
        line.remove_prefix(end + separator.size());
    }
}

std::size_t fewest_fields(const LineLayout& layout) {
    return static_cast<std::size_t>(std::ranges::count(layout, false, &LineField::optional));
}

std::optional<LineFields> fields_by_layout(const std::vector<std::string_view>& fields,
                                           const LineLayout& layout, const LineProtocol& protocol) {
    const bool repeats = !layout.empty() && layout.back().kind == LineField::Kind::values;
    if (fields.size() < fewest_fields(layout)) return std::nullopt;
    if (fields.size() > layout.size() && !repeats) return std::nullopt;
    LineFields line;
    for (std::size_t i = 0; i < fields.size(); ++i)
        if (!take_field(fields[i], layout[std::min(i, layout.size() - 1)], protocol, line))
            return std::nullopt;
    return line;
}

} // namespace coilward
