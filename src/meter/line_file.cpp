#include "meter/line_file.h"

#include "meter/driver_words.h"
#include "meter/line_fields.h"
#include "meter/number_forms.h"
#include "toml/utf8.h"

#include <numbers>

#include <fmt/format.h>

namespace coilward {
namespace {

struct FieldWord {
    std::string_view text;
    LineField::Kind kind;
    std::size_t index;
};

constexpr std::array<FieldWord, 12> field_words{{
    {"primary", LineField::Kind::value, 0},
    {"secondary", LineField::Kind::value, 1},
    {"third", LineField::Kind::value, 2},
    {"fourth", LineField::Kind::value, 3},
    {"primary...", LineField::Kind::values, 0},
    {"status", LineField::Kind::status, 0},
    {"state", LineField::Kind::state, 0},
    {"key", LineField::Kind::key, 0},
    {"unit", LineField::Kind::unit, 0},
    {"bin", LineField::Kind::bin, 0},
    {"integer", LineField::Kind::integer, 0},
    {"text", LineField::Kind::text, 0},
}};

std::optional<LineField> field_named(std::string_view word) {
    const bool optional = word.ends_with('?');
    if (optional) word.remove_suffix(1);
    LineField field{.kind = LineField::Kind::tagged, .index = 0, .tag = {}, .optional = optional};
    constexpr std::string_view tagged = "number ";
    if (word.starts_with(tagged)) {
        field.tag = trimmed(word.substr(tagged.size()));
        return field;
    }
    for (const FieldWord& known : field_words) {
        if (known.text != word) continue;
        field.kind = known.kind;
        field.index = known.index;
        return field;
    }
    return std::nullopt;
}

/// Why a list of fields is no layout.
std::optional<std::string> objection_to(const LineLayout& layout) {
    bool optional = false;
    bool value = false;
    LineField::Kind before = LineField::Kind::text;
    for (const LineField& field : layout) {
        if (optional && !field.optional)
            return "found a field behind an optional one, expected optional fields last";
        optional = field.optional;
        const bool is_value = field.kind == LineField::Kind::value || field.kind == LineField::Kind::values;
        value = value || is_value;
        if (before == LineField::Kind::key && !is_value)
            return "found a field between \"key\" and its value, expected the value";
        if (field.kind == LineField::Kind::unit && before != LineField::Kind::value)
            return "found \"unit\" without a value before it";
        before = field.kind;
        if (field.kind == LineField::Kind::values && &field != &layout.back())
            return "found a field behind \"primary...\", expected it last";
    }
    if (!value) return "found no value in this layout, expected \"primary\" in it";
    return std::nullopt;
}

std::optional<LineLayout> read_layout(TableReader& line, const std::string& text) {
    LineLayout layout;
    for (const std::string_view word : split(text, ",")) {
        const auto field = field_named(word);
        if (!field) {
            line.complain(
                ComplaintKind::unknown_word, "layouts",
                fmt::format("found field \"{}\", expected primary, secondary, third, fourth, primary..., "
                            "status, state, key, unit, bin, integer, number TAG or text, each with a ? where "
                            "it may be absent",
                            word));
            return std::nullopt;
        }
        layout.push_back(*field);
    }
    if (const auto wrong = objection_to(layout)) {
        line.complain(ComplaintKind::unknown_word, "layouts", *wrong);
        return std::nullopt;
    }
    return layout;
}

/// How the number becomes one in SI units; at most one of these flags.
void read_scale(TableReader& named, NamedValue& value) {
    if (named.flag("fahrenheit", Need::optional).value_or(false)) {
        value.offset = -32.0;
        value.scale = 5.0 / 9.0;
    }
    if (named.flag("kelvin", Need::optional).value_or(false)) value.offset = -273.15;
    if (named.flag("degrees", Need::optional).value_or(false)) value.scale = std::numbers::pi / 180.0;
}

/// [[line.units]] or [[line.keys]]
NamedValues read_named_values(TableReader& line, std::string_view key) {
    NamedValues named;
    for (TableReader& each : line.tables(key, Need::optional)) {
        const auto text = each.text("text", Need::required);
        NamedValue value;
        value.quantity = read_quantity(each, "quantity", Need::optional);
        value.circuit = read_circuit(each, "circuit");
        value.power = each.whole_number("power", Need::optional, -15, 15).value_or(0);
        read_scale(each, value);
        value.digits = each.whole_number("digits", Need::optional, 1, 15).value_or(0);
        value.not_ours = each.text("not_ours", Need::optional).value_or("");
        if (value.quantity && !value.not_ours.empty())
            each.complain(ComplaintKind::said_twice, "not_ours",
                          "expected \"quantity\" or \"not_ours\", not both");
        each.refuse_unknown_keys();
        if (text) named.push_back({*text, value});
    }
    return named;
}

/// KEY_required and KEY_forbidden, of which a file says at most one.
void read_mark(TableReader& line, const std::string& key, NumberLook::Mark mark, NumberForm& form) {
    const bool required = line.flag(key + "_required", Need::optional).value_or(false);
    const bool forbidden = line.flag(key + "_forbidden", Need::optional).value_or(false);
    if (required) form.required |= mark;
    if (forbidden) form.forbidden |= mark;
    if (required && forbidden)
        line.complain(ComplaintKind::said_twice, key + "_forbidden",
                      fmt::format("expected \"{0}_required\" or \"{0}_forbidden\", not both", key));
}

NumberForm read_number_form(TableReader& line) {
    NumberForm form;
    read_mark(line, "exponent", NumberLook::any_exponent, form);
    read_mark(line, "sign", NumberLook::sign, form);
    if (line.flag("point_required", Need::optional).value_or(false)) form.required |= NumberLook::any_point;
    form.comma_decimal = line.flag("comma_decimal", Need::optional).value_or(false);
    for (const std::string& each : line.texts("numbers", Need::optional)) {
        form.forms.emplace_back(each);
        if (!is_number_form(each))
            line.complain(ComplaintKind::unknown_word, "numbers",
                          fmt::format("found \"{}\", expected the layout of a number, as SD.DDDDDESDD (S a "
                                      "sign, s a minus or nothing, D a digit, # any number of them)",
                                      shortened(each)));
    }
    return form;
}

void read_status(TableReader& line, LineProtocol& protocol) {
    for (TableReader& each : line.tables("status", Need::optional)) {
        const auto code = each.whole_number("code", Need::required, -1000, 1000);
        const auto meaning = read_meaning(each, "meaning");
        const auto note = each.text("note", Need::optional);
        each.refuse_unknown_keys();
        if (code && meaning) protocol.status.push_back({*code, *meaning, note.value_or("")});
    }
}

/// [[line.words]] or [[line.states]]
StandIns read_stand_ins(TableReader& line, std::string_view key) {
    StandIns known;
    for (TableReader& each : line.tables(key, Need::optional)) {
        const auto text = each.text("text", Need::required);
        const auto meaning = read_meaning(each, "meaning");
        const auto note = each.text("note", Need::optional);
        if (meaning == Meaning::ok && key == "words")
            each.complain(ComplaintKind::unknown_word, "meaning",
                          "found \"ok\", expected what the word says in place of a number");
        each.refuse_unknown_keys();
        if (text && meaning) known.push_back({*text, *meaning, note.value_or("")});
    }
    return known;
}

void read_sentinels(TableReader& line, LineProtocol& protocol) {
    for (TableReader& each : line.tables("sentinels", Need::optional)) {
        const auto number = each.number("number", Need::required, {"", 1.0, 1e300});
        const auto meaning = read_meaning(each, "meaning");
        each.refuse_unknown_keys();
        if (number && meaning) protocol.sentinels.push_back({*number, *meaning});
    }
}

std::string read_separator(TableReader& line) {
    static constexpr std::array<Word<std::string_view>, 4> words{
        {{"comma", ","}, {"semicolon", ";"}, {"blank", " "}, {"none", ""}}};
    return std::string(line.word<std::string_view>("separator", Need::optional, words).value_or(","));
}

std::string read_key_joiner(TableReader& line) {
    static constexpr std::array<Word<std::string_view>, 3> words{
        {{"equals", "="}, {"blank", " "}, {"colon", ":"}}};
    return std::string(line.word<std::string_view>("key_joiner", Need::optional, words).value_or("="));
}

/// A number may stand without its unit or name where nothing says that they are always there.
void allow_bare(NamedValues& named, bool required) {
    if (!named.empty() && !required) named.push_back({"", NamedValue{}});
}

} // namespace

LineProtocol read_line_protocol(TableReader& line) {
    LineProtocol protocol;
    protocol.longest =
        static_cast<std::size_t>(line.whole_number("longest", Need::optional, 4, 1000).value_or(80));
    protocol.separator = read_separator(line);
    for (const std::string& text : line.texts("layouts", Need::required))
        if (auto layout = read_layout(line, text)) protocol.layouts.push_back(std::move(*layout));
    protocol.numbers = read_number_form(line);
    protocol.largest = line.number("largest", Need::optional, {"", 1.0, 1e30}).value_or(protocol.largest);
    read_status(line, protocol);
    read_sentinels(line, protocol);
    protocol.words = read_stand_ins(line, "words");
    protocol.states = read_stand_ins(line, "states");
    protocol.units = read_named_values(line, "units");
    allow_bare(protocol.units, line.flag("unit_required", Need::optional).value_or(false));
    protocol.keys = read_named_values(line, "keys");
    allow_bare(protocol.keys, line.flag("key_required", Need::optional).value_or(false));
    protocol.key_joiner = read_key_joiner(line);
    protocol.asides = KnownTexts(line.texts("asides", Need::optional));
    line.refuse_unknown_keys();
    return protocol;
}

} // namespace coilward
