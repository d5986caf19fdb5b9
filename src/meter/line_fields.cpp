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

NumberText number_in(std::string_view text, const NumberForm& form) {
    NumberText number = number_at_front(text);
    // "23,5": the whole part ends where a comma follows.
    if (form.comma_decimal && number.length < text.size() && text[number.length] == ',')
        number = number_at_front(text, ',');
    return number;
}

/// A value field before its unit is known: a number, or a word in its place.
struct OpenValue {
    OpenValue(std::size_t index_of_value, const NamedValue* key_before, std::string_view text,
              const NumberForm& form)
        : index(index_of_value), key(key_before), number(number_in(text, form)) {}

    OpenValue(std::size_t index_of_value, const NamedValue* key_before, const StandIn& known_word)
        : index(index_of_value), key(key_before), word(&known_word) {}

    std::size_t index;
    const NamedValue* key;
    const StandIn* word = nullptr;
    NumberText number;
    UnitFound unit;
    std::string_view unit_text;
};

/// One line on its way through one layout.
struct LineInParts {
    LineInParts(const LineProtocol& line_protocol, const MeterSetting& meter_setting, LineFields& line_fields)
        : protocol(line_protocol), setting(meter_setting), fields(line_fields) {}

    const LineProtocol& protocol;
    const MeterSetting& setting;
    LineFields& fields;
    std::optional<OpenValue> open;        ///< whose unit is in the next field
    const NamedValue* next_key = nullptr; ///< from a field of its own
};

bool has_allowed_form(const NumberText& number, const NumberForm& form) {
    using Form = NumericResponse::Form;
    if (number.length == 0) return false;
    if (form.exponent_required && number.form != Form::nr3) return false;
    if (form.exponent_forbidden && number.form == Form::nr3) return false;
    if (form.point_required && number.form == Form::nr1) return false;
    if (form.sign_forbidden && number.has_sign) return false;
    return number.has_sign || !form.sign_required;
}

/// Takes "L=" or "CP " off the front of a value field; nullptr where the name is unknown.
const NamedValue* take_key(std::string_view& text, const LineProtocol& protocol) {
    std::string_view key;
    if (const std::size_t joiner = text.find(protocol.key_joiner); joiner != std::string_view::npos) {
        key = trimmed(text.substr(0, joiner));
        text = trimmed(text.substr(joiner + protocol.key_joiner.size()));
    }
    return key_named(key, protocol);
}

bool take_unit(std::string_view text, OpenValue& value, const LineInParts& line) {
    value.unit = unit_named(text, line.protocol, line.setting);
    value.unit_text = text;
    return value.unit.unit != nullptr;
}

const Sentinel* sentinel_of(double number, const LineProtocol& protocol) {
    // The instruments print these exactly; the tolerance is for the decimal conversion only.
    for (const Sentinel& sentinel : protocol.sentinels)
        if (std::abs(std::abs(number) - sentinel.magnitude) <= 1e-12 * sentinel.magnitude) return &sentinel;
    return nullptr;
}

/// The digits of the number without its exponent.
int digits_of(const NumberText& number) {
    return static_cast<int>(number.mantissa.size()) - (number.decimals > 0 ? 1 : 0);
}

/// True where the number is written as the meter writes its numbers, or is one of its special ones.
bool is_written_as_sent(const NumberText& number, std::string_view text, const LineProtocol& protocol) {
    const auto& forms = protocol.numbers.forms;
    if (forms.empty()) return true;
    const std::string_view written = text.substr(0, number.length);
    if (std::ranges::any_of(forms, [&](const std::string& form) { return has_form(written, form); }))
        return true;
    const auto sent = scaled(number);
    return sent && sentinel_of(sent->value, protocol) != nullptr;
}

bool has_as_many_digits_as(const NamedValue* named, const NumberText& number) {
    return !named || named->digits == 0 || digits_of(number) == named->digits;
}

/// From the number to the value in SI units, as in NamedValue.
struct Scale {
    int power = 0;
    double offset = 0.0;
    double factor = 1.0;
};

/// What the name before the number leaves open, the unit behind it says. Gives the power of ten and the line
/// from the number to the value.
Scale joined(const OpenValue& open, FieldValue& value) {
    Scale scale;
    for (const NamedValue* named : {open.key, open.unit.unit}) {
        if (!named) continue;
        if (named->quantity) value.quantity = named->quantity;
        if (named->circuit) value.circuit = named->circuit;
        if (!named->not_ours.empty()) value.not_ours = named;
        scale.power += named->power;
        scale.offset += named->offset;
        scale.factor *= named->scale;
    }
    if (open.unit.is_ambiguous) value.ambiguous = open.unit_text;
    return scale;
}

/// A value of which everything is known; false where its number is none that can be held.
bool close_value(const OpenValue& open, LineInParts& line) {
    FieldValue& value = line.fields.values.emplace_back(open.index);
    const Scale scale = joined(open, value);
    if (open.word) {
        value.meaning = open.word->meaning;
        return true;
    }
    if (!has_as_many_digits_as(open.unit.unit, open.number)) return false;
    value.negative = open.number.negative;
    const auto number = scaled(open.number, scale.power);
    if (!number) return false;
    if (!line.protocol.sentinels.empty()) {
        const auto sent = scale.power == 0 ? number : scaled(open.number);
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
bool close_or_wait(const OpenValue& value, bool unit_follows, LineInParts& line) {
    if (!unit_follows) return close_value(value, line);
    line.open = value;
    return true;
}

/// A number with its name and unit, or a word in its place.
bool take_value(std::string_view text, std::size_t index, bool unit_follows, LineInParts& line) {
    const NamedValue* key = std::exchange(line.next_key, nullptr);
    if (const StandIn* word = stand_in_named(text, line.protocol.words))
        return close_or_wait({index, key, *word}, unit_follows, line);
    if (!key && !line.protocol.keys.empty()) {
        key = take_key(text, line.protocol);
        if (!key) return false;
    }
    OpenValue value(index, key, text, line.protocol.numbers);
    if (!has_allowed_form(value.number, line.protocol.numbers)) return false;
    if (!is_written_as_sent(value.number, text, line.protocol))
        line.fields.unusual_digits = digits_of(value.number);
    const std::string_view rest = trimmed(text.substr(value.number.length));
    const bool bare = rest.empty() && (line.protocol.units.empty() || unit_follows);
    if (!bare && !take_unit(rest, value, line)) return false;
    return close_or_wait(value, unit_follows, line);
}

/// The unit of the value before.
bool take_unit_field(std::string_view text, LineInParts& line) {
    if (!line.open || !take_unit(text, *line.open, line)) return false;
    const bool closed = close_value(*line.open, line);
    line.open.reset();
    return closed;
}

std::optional<int> integer_of(std::string_view text) {
    const NumberText number = number_at_front(text);
    constexpr std::uint64_t largest = 1'000'000;
    const bool whole = number.length == text.size() && number.form == NumericResponse::Form::nr1;
    if (number.length == 0 || !whole || !number.digits_fit || number.digits > largest) return std::nullopt;
    return number.negative ? -static_cast<int>(number.digits) : static_cast<int>(number.digits);
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
    const std::size_t length = number_at_front(text).length;
    return length > 0 && trimmed(text.substr(length)) == tag;
}

bool is_printable(std::string_view text) {
    return std::ranges::all_of(text, [](char character) { return character >= ' ' && character <= '~'; });
}

/// Reads one field into `line`; false where it is not of its kind.
bool take_field(std::string_view text, const LineField& field, bool unit_follows, LineInParts& line) {
    switch (field.kind) {
    case LineField::Kind::value:
    case LineField::Kind::values:
        return take_value(text, field.index, unit_follows, line);
    case LineField::Kind::status: // a minus that got lost would make another code of it
        if (line.protocol.numbers.sign_required && !number_at_front(text).has_sign) return false;
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

bool fits_layout(std::string_view line, const LineLayout& layout, const LineProtocol& protocol,
                 const MeterSetting& setting, LineFields& fields) {
    LineInParts parts(protocol, setting, fields);
    FieldsInTurn turn(line, protocol.separator);
    std::size_t taken = 0;
    for (auto text = turn.next(); text; text = turn.next(), ++taken) {
        const bool repeats = taken >= layout.size() && layout.back().kind == LineField::Kind::values;
        if (taken >= layout.size() && !repeats) return false;
        const std::size_t at = std::min(taken, layout.size() - 1);
        const bool unit_follows = at + 1 < layout.size() && layout[at + 1].kind == LineField::Kind::unit;
        if (!take_field(*text, layout[at], unit_follows, parts)) return false;
    }
    if (taken < fewest_fields(layout)) return false;
    return !parts.open || close_value(*parts.open, parts);
}

} // namespace coilward
