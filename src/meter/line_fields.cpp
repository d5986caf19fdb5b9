#include "meter/line_fields.h"

#include "meter/line_names.h"
#include "meter/meter_notes.h"
#include "meter/number_forms.h"
#include "meter/numeric_response.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace coilward {
namespace {

/// One line on its way through one layout, with the last of its values, which is open until its unit is
/// known.
struct LineInParts {
    LineInParts(const LineProtocol& line_protocol, const MeterSetting& meter_setting, LineFields& line_fields)
        : protocol(line_protocol), setting(meter_setting), fields(line_fields) {}

    const LineProtocol& protocol;
    const MeterSetting& setting;
    LineFields& fields;
    const NamedValue* next_key = nullptr; ///< from a field of its own
    bool is_open = false;                 ///< the unit is in the next field
    const NamedValue* key = nullptr;
    const StandIn* word = nullptr; ///< in place of a number
    NumberText number;
    UnitFound unit;
    std::string_view unit_text;
};

bool has_allowed_form(const NumberText& number, const NumberForm& form) {
    return !number.written.empty() && (number.look.word & (form.required | form.forbidden)) == form.required;
}

/// Where the joiner stands in the text, or the end of the text. Names are short: faster than a search by the
/// library.
std::size_t place_of(std::string_view joiner, std::string_view text) {
    if (joiner.empty()) return 0;
    std::size_t at = 0;
    while (at < text.size() && (text[at] != joiner.front() || !text.substr(at).starts_with(joiner)))
        ++at;
    return at;
}

/// Takes "L=" or "CP " off the front of a value field; nullptr where the name is unknown.
const NamedValue* take_key(std::string_view& text, const LineProtocol& protocol) {
    std::string_view key;
    if (const std::size_t joiner = place_of(protocol.key_joiner, text); joiner != text.size()) {
        key = trimmed(text.substr(0, joiner));
        text = trimmed(text.substr(joiner + protocol.key_joiner.size()));
    }
    return key_named(key, protocol);
}

bool take_unit(std::string_view text, LineInParts& line) {
    line.unit = unit_named(text, line.protocol, line.setting);
    line.unit_text = text;
    return line.unit.unit != nullptr;
}

const Sentinel* sentinel_of(double number, const LineProtocol& protocol) {
    // The instruments print these exactly; the tolerance is for the decimal conversion only.
    for (const Sentinel& sentinel : protocol.sentinels)
        if (std::abs(std::abs(number) - sentinel.magnitude) <= 1e-12 * sentinel.magnitude) return &sentinel;
    return nullptr;
}

/// True where the number is written as the meter writes its numbers, or is one of its special ones.
bool is_written_as_sent(const NumberText& number, const LineProtocol& protocol) {
    const auto& forms = protocol.numbers.forms;
    if (forms.empty()) return true;
    for (const WrittenForm& form : forms)
        if (form.fits(number)) return true;
    const auto sent = scaled(number);
    return sent && sentinel_of(sent->value, protocol) != nullptr;
}

bool has_as_many_digits_as(const NamedValue* unit, const NumberText& number) {
    return !unit || unit->digits == 0 || number.look.digits() == unit->digits;
}

/// From the number to the value in SI units, as in NamedValue.
struct Scale {
    int power = 0;
    double offset = 0.0;
    double factor = 1.0;
};

void join(const NamedValue& named, FieldValue& value, Scale& scale) {
    if (named.quantity) value.quantity = named.quantity;
    if (named.circuit) value.circuit = named.circuit;
    if (!named.not_ours.empty()) value.not_ours = &named;
    scale.power += named.power;
    scale.offset += named.offset;
    scale.factor *= named.scale;
}

/// What the name before the number leaves open, the unit behind it says. Gives the power of ten and the line
/// from the number to the value.
Scale joined(const LineInParts& line, FieldValue& value) {
    Scale scale;
    if (line.key) join(*line.key, value, scale);
    if (line.unit.unit) join(*line.unit.unit, value, scale);
    if (line.unit.is_ambiguous) value.ambiguous = line.unit_text;
    return scale;
}

/// A value of which everything is known; false where its number is none that can be held.
bool close_value(LineInParts& line) {
    line.is_open = false;
    FieldValue& value = line.fields.values.back();
    const Scale scale = joined(line, value);
    if (line.word) {
        value.meaning = line.word->meaning;
        return true;
    }
    if (!has_as_many_digits_as(line.unit.unit, line.number)) return false;
    value.negative = line.number.is_negative();
    const auto number = scaled(line.number, scale.power);
    if (!number) return false;
    if (!line.protocol.sentinels.empty()) {
        const auto sent = scale.power == 0 ? number : scaled(line.number);
        if (const Sentinel* sentinel = sent ? sentinel_of(sent->value, line.protocol) : nullptr) {
            value.meaning = sentinel->meaning;
            return true;
        }
    }
    value.value = scale.factor * (number->value + scale.offset);
    value.resolution = scale.factor * number->resolution;
    if (std::abs(value.value) >= line.protocol.largest) line.fields.beyond_measure = true;
    return true;
}

/// Closes the value, or leaves it open for the unit in the next field.
bool close_or_wait(LineInParts& line, bool unit_follows) {
    line.is_open = unit_follows;
    return unit_follows || close_value(line);
}

/// A number with its name and unit, or a word in its place.
bool take_value(std::string_view text, std::size_t index, bool unit_follows, LineInParts& line) {
    const LineProtocol& protocol = line.protocol;
    line.fields.values.emplace_back(index);
    line.unit = {};
    line.key = std::exchange(line.next_key, nullptr);
    line.word = stand_in_named(text, protocol.words);
    if (line.word) return close_or_wait(line, unit_follows);
    if (!line.key && !protocol.keys.empty()) {
        line.key = take_key(text, protocol);
        if (!line.key) return false;
    }
    take_number_at_front(text, protocol.numbers.comma_decimal, line.number);
    if (!has_allowed_form(line.number, protocol.numbers)) return false;
    if (!is_written_as_sent(line.number, protocol)) line.fields.unusual_digits = line.number.look.digits();
    const std::string_view rest = trimmed(text.substr(line.number.written.size()));
    const bool bare = rest.empty() && (protocol.units.empty() || unit_follows);
    if (!bare && !take_unit(rest, line)) return false;
    return close_or_wait(line, unit_follows);
}

/// The unit of the value before.
bool take_unit_field(std::string_view text, LineInParts& line) {
    return line.is_open && take_unit(text, line) && close_value(line);
}

std::optional<int> integer_of(std::string_view text) {
    const NumberText number = number_at_front(text);
    constexpr std::uint64_t largest = 1'000'000;
    const bool whole = number.written.size() == text.size() && !number.look.has(NumberLook::any_point);
    if (number.written.empty() || !whole || !number.digits_fit || number.digits > largest)
        return std::nullopt;
    return number.is_negative() ? -static_cast<int>(number.digits) : static_cast<int>(number.digits);
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

bool is_value(const LineField& field) {
    return field.kind == LineField::Kind::value || field.kind == LineField::Kind::values;
}

/// Reads one field that is no value into `line`; false where it is not of its kind.
bool take_field(std::string_view text, const LineField& field, LineInParts& line) {
    switch (field.kind) {
    case LineField::Kind::value:
    case LineField::Kind::values:
        break;
    case LineField::Kind::status: // a minus that got lost would make another code of it
        if ((line.protocol.numbers.required & NumberLook::sign) != 0 && !number_at_front(text).has_sign())
            return false;
        line.fields.status = integer_of(text);
        return line.fields.status.has_value();
    case LineField::Kind::state:
        line.fields.state = stand_in_named(text, line.protocol.states);
        return line.fields.state != nullptr;
    case LineField::Kind::key:
        line.next_key = key_named(text, line.protocol);
        return line.next_key != nullptr;
    case LineField::Kind::unit:
        return take_unit_field(text, line);
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

std::string objection_to(const FieldValue& value) {
    if (value.not_ours) return meter_notes::is_on(value.not_ours->not_ours);
    if (value.ambiguous.empty()) return {};
    return fmt::format("what the unit {} stands for depends on the function that the meter is set to",
                       value.ambiguous);
}

std::size_t fewest_fields(const LineLayout& layout) {
    return static_cast<std::size_t>(std::ranges::count(layout, false, &LineField::optional));
}

bool fits_layout(std::span<const std::string_view> texts, std::span<const LineField> layout,
                 const LineProtocol& protocol, const MeterSetting& setting, LineFields& fields) {
    const LineField* const last = &layout.back();
    const bool is_short = texts.size() < layout.size() && !layout[texts.size()].optional;
    const bool is_long = texts.size() > layout.size() && last->kind != LineField::Kind::values;
    if (is_short || is_long) return false;
    LineInParts parts(protocol, setting, fields);
    const LineField* field = layout.data();
    for (const std::string_view text : texts) {
        const bool unit_follows = field != last && field[1].kind == LineField::Kind::unit;
        const bool fits = is_value(*field) ? take_value(text, field->index, unit_follows, parts)
                                           : take_field(text, *field, parts);
        if (!fits) return false;
        if (field != last) ++field;
    }
    return !parts.is_open || close_value(parts);
}

} // namespace coilward
