// lcr-main-colon: two lines, for a question about the main value and one about the second.
//
//   MAIN:PRIM NNNNNN        number, without unit
//   MAIN:SECO NNNNNUUK      number; UU unit of the main value: nF pF uF mH H k or blank; K k or blank for the
//                           second value, where that is a resistance
//   PRIM:OVER               overload of both;  PRIM:OV01 of the main value
//   SECO:OVER UU            overload of the second value
//
// GW Instek LCR-800 manual, p. 89 and 107-110. A positive number has a blank in the place of its sign. The
// main value waits for the second line, which holds its unit.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"
#include "meter/line_scan.h"

#include <algorithm>
#include <array>
#include <utility>

namespace coilward {
namespace {

constexpr std::size_t longest_line = 30;
constexpr std::size_t most_line_ends = 4; ///< between the two lines
constexpr std::size_t main_width = 7;
constexpr std::size_t second_width = 6;
constexpr std::string_view main_mark = "MAIN:PRIM";
constexpr std::string_view second_mark = "MAIN:SECO";
constexpr std::string_view second_over_mark = "SECO:OVER";

struct Unit {
    std::string_view text;
    Quantity quantity;
    int power; ///< of ten, to the SI unit
};

constexpr std::array<Unit, 7> units{{
    {"pF", Quantity::capacitance, -12},
    {"nF", Quantity::capacitance, -9},
    {"uF", Quantity::capacitance, -6},
    {"mH", Quantity::inductance, -3},
    {"H", Quantity::inductance, 0},
    {"k", Quantity::ac_resistance, 3},
    {"", Quantity::ac_resistance, 0},
}};

/// The second line in parts.
struct SecondLine {
    PlainNumber number;
    const Unit* main_unit = nullptr;
    bool kilo = false;
};

const Unit* unit_named(std::string_view text) {
    const auto unit = std::ranges::find(units, text, &Unit::text);
    return unit == units.end() ? nullptr : &*unit;
}

std::size_t line_ends_at_front(std::string_view text) {
    return static_cast<std::size_t>(std::ranges::find_if_not(text, ends_line) - text.begin());
}

/// The line at the front; nothing where its end has not come.
std::optional<std::string_view> line_at(std::string_view text) {
    const auto end = std::ranges::find_if(text, ends_line);
    if (end == text.end()) return std::nullopt;
    return std::string_view(text.begin(), end);
}

/// The characters of a value and what stands behind them, of a line without its mark. The sign has a place of
/// its own; one blank before a minus does no harm.
std::pair<std::string_view, std::string_view> value_and_rest(std::string_view text, std::size_t width) {
    if (text.starts_with(" -")) text.remove_prefix(1);
    return {text.substr(0, width), text.substr(std::min(width, text.size()))};
}

std::optional<PlainNumber> number_in(std::string_view field, std::size_t width) {
    if (field.size() != width) return std::nullopt;
    while (field.starts_with(' '))
        field.remove_prefix(1);
    return plain_number(field, true);
}

std::optional<PlainNumber> main_number(std::string_view line) {
    const auto [value, rest] = value_and_rest(line.substr(main_mark.size()), main_width);
    if (!without_blanks(rest).empty()) return std::nullopt;
    return number_in(value, main_width);
}

std::optional<SecondLine> second_line(std::string_view line) {
    const auto [value, rest] = value_and_rest(line.substr(second_mark.size()), second_width);
    const auto number = number_in(value, second_width);
    const Unit* main_unit = unit_named(without_blanks(rest.substr(0, 2)));
    const std::string_view own_unit = without_blanks(rest.substr(std::min<std::size_t>(2, rest.size())));
    if (!number || !main_unit || (own_unit != "k" && !own_unit.empty())) return std::nullopt;
    return SecondLine{.number = *number, .main_unit = main_unit, .kilo = own_unit == "k"};
}

/// Adds the second value: a resistance where its unit says so; else what the setting names, if the meter is
/// set so.
void add_second_value(Frame& into, const SecondLine& line, const MeterSetting& setting) {
    if (line.kilo)
        add_number(into, Quantity::ac_resistance, line.number.counts, 3 - line.number.decimals, setting);
    else if (setting.quantities.size() >= 2 && setting.quantities[0] == line.main_unit->quantity)
        add_number(into, setting.quantities[1], line.number.counts, -line.number.decimals, setting);
}

std::size_t overload(std::size_t used, const MeterSetting& setting, bool main, bool second, Frame& into) {
    for (std::size_t i = 0; i < setting.quantities.size(); ++i)
        if (i == 0 ? main : second) add_out_of_range(into, setting.quantities[i], State::over_range, setting);
    return piece(into, used, into.readings.empty() ? Verdict::senseless : Verdict::reading);
}

/// Both lines, or the second one alone. The unit tells the main quantity, whatever was set.
std::size_t values(std::size_t used, std::optional<PlainNumber> main, const SecondLine& second,
                   const MeterSetting& setting, Frame& into) {
    const Unit& unit = *second.main_unit;
    const bool as_set = !setting.quantities.empty() && setting.quantities[0] == unit.quantity;
    if (!as_set && unit.text.empty())
        return piece(into, used, Verdict::senseless, "the main value has lost its unit");
    if (main) add_number(into, unit.quantity, main->counts, unit.power - main->decimals, setting);
    add_second_value(into, second, setting);
    if (!as_set) other_function(into, used, name(unit.quantity));
    into.verdict = into.readings.empty() ? Verdict::senseless : Verdict::reading;
    return used;
}

/// A line whose meaning does not wait for another one.
std::size_t judged_alone(std::string_view line, const MeterSetting& setting, Frame& into) {
    if (line == "PRIM:OVER") return overload(line.size(), setting, true, true, into);
    if (line == "PRIM:OV01") return overload(line.size(), setting, true, false, into);
    if (line == "COMU:OVER" || line == "COMU:OFF.") return piece(into, line.size(), Verdict::aside);
    if (line.starts_with(second_over_mark)) {
        if (!unit_named(without_blanks(line.substr(second_over_mark.size()))))
            return piece(into, line.size(), Verdict::bad_structure);
        return overload(line.size(), setting, false, true, into);
    }
    if (line.starts_with(second_mark))
        if (const auto second = second_line(line)) return values(line.size(), {}, *second, setting, into);
    return piece(into, line.size(), Verdict::bad_structure);
}

/// A main value together with the line behind it.
std::size_t judged_with_next(std::string_view buffer, std::string_view line, const MeterSetting& setting,
                             Frame& into) {
    const auto number = main_number(line);
    if (!number) return piece(into, line.size(), Verdict::bad_structure);
    const std::size_t most = std::min(buffer.size(), line.size() + most_line_ends + 1);
    const std::size_t next_at =
        line.size() + line_ends_at_front(buffer.substr(line.size(), most - line.size()));
    if (next_at == most) return most == buffer.size() ? 0 : piece(into, line.size(), Verdict::too_short);
    const auto next = line_at(buffer.substr(next_at, longest_line + 1));
    if (!next && buffer.size() - next_at <= longest_line) return 0;
    if (!next || !next->starts_with(second_mark)) return piece(into, line.size(), Verdict::too_short);
    const auto second = second_line(*next);
    const std::size_t used = next_at + next->size();
    return second ? values(used, number, *second, setting, into) : piece(into, used, Verdict::bad_structure);
}

} // namespace

std::size_t scan_lcr_main_colon(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    if (buffer.empty()) return 0;
    const std::size_t start = line_ends_at_front(buffer);
    if (start > 0) return piece(into, start, Verdict::aside);
    const auto line = line_at(buffer.substr(0, longest_line + 1));
    if (!line) return buffer.size() <= longest_line ? 0 : piece(into, longest_line, Verdict::bad_structure);
    return line->starts_with(main_mark) ? judged_with_next(buffer, *line, setting, into)
                                        : judged_alone(*line, setting, into);
}

namespace {

/// So many digits with a point among or behind the sign's place: " 32.705".
std::string field_of(const ShownNumber& shown, int unit_power, int digits) {
    std::string text = in_digits(shown.counts, digits);
    text.insert(text.size() - static_cast<std::size_t>(unit_power - shown.power), ".");
    return (shown.counts < 0 ? "-" : " ") + text;
}

std::string second_field(std::optional<double> value, Quantity quantity, std::string& kilo) {
    constexpr int digits = 4;
    constexpr long long most_counts = 9999;
    const bool may_have_kilo = quantity == Quantity::ac_resistance;
    for (const int unit_power : {0, may_have_kilo ? 3 : 0})
        if (const auto shown = shown_number(value, unit_power - digits, unit_power - 1, most_counts)) {
            if (unit_power == 3) kilo = "k";
            return field_of(*shown, unit_power, digits);
        }
    return {};
}

} // namespace

std::string show_lcr_main_colon(ShownValues values, const MeterSetting& setting) {
    constexpr int digits = 5;
    constexpr long long most_counts = 99'999;
    constexpr std::string_view end = "\n\r";
    std::string over = "PRIM:OVER" + std::string(end);
    std::string kilo = " ";
    const std::string second = second_field(values[1], quantity_at(setting, 1), kilo);
    for (const Unit& unit : units) {
        if (unit.quantity != quantity_at(setting, 0) || second.empty()) continue;
        if (const auto shown = shown_number(values[0], unit.power - digits + 1, unit.power - 1, most_counts))
            return std::string(main_mark) + field_of(*shown, unit.power, digits) + std::string(end) +
                   std::string(second_mark) + second + blanks_behind(unit.text, 2) + kilo + std::string(end);
    }
    return over;
}

} // namespace coilward
