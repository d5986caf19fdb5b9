// lcr-brace30: thirty characters in braces, sent after every measurement once serial output is on.
//
//   {  P F L D H S C B T K O X R  VVVVVV  WWWWWW  U J G  }
//
//   P       0 L-Q, 1 C-D, 2 R-Q, 3 R-D, 4 another pair
//   F       frequency: 0 to 5 for 10 kHz, 1 kHz, 120, 100, 60, 50 Hz
//   L       level, 0 to 2
//   D       display: 0 percent, 1 direct, 2 deviation
//   H S C   range hold or auto; speed, 0 to 2; clearing, 0 to 3
//   B T K   beeper; continuous or single; 0 series, 1 parallel
//   O X R   serial output; comparator; source resistance
//   VVVVVV  main value, digits, point, minus
//   WWWWWW  second value, the same
//   U       unit of the main value: 0, 1 or 2 of its list; % for a deviation
//   J G     comparator's verdict, 0 to 5; range, 0 to 5
//
// Twintex LCR manual, p. 35, 36; Tonghui TH2618B manual, p. 25. How overload looks was not seen: a value
// without any digit is taken for it.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"
#include "meter/meter_notes.h"

#include <algorithm>
#include <array>

namespace coilward {
namespace {

constexpr StartedFrame shape{.length = 30, .start = '{', .end = '}'};
constexpr std::size_t command_length = 4;

/// Places count from 0 here.
constexpr std::size_t pair_at = 1;
constexpr std::size_t frequency_at = 2;
constexpr std::size_t display_at = 4;
constexpr std::size_t circuit_at = 10;
constexpr std::size_t main_at = 14;
constexpr std::size_t second_at = 20;
constexpr std::size_t unit_at = 26;
constexpr std::size_t value_length = 6;

struct Settled {
    std::size_t place;
    char last; ///< the highest of the characters from '0' that can stand there
};

constexpr std::array<Settled, 15> settled{{{pair_at, '4'},
                                           {frequency_at, '5'},
                                           {3, '2'},
                                           {display_at, '2'},
                                           {5, '1'},
                                           {6, '2'},
                                           {7, '3'},
                                           {8, '1'},
                                           {9, '1'},
                                           {circuit_at, '1'},
                                           {11, '1'},
                                           {12, '9'},
                                           {13, '1'},
                                           {27, '5'},
                                           {28, '5'}}};

constexpr std::array<double, 6> frequencies_hz{10e3, 1e3, 120.0, 100.0, 60.0, 50.0};

struct Pair {
    Quantity main;
    Quantity second;
    int power; ///< of ten, of the lowest unit to the SI unit; each further one has a thousand times that
};

constexpr std::array<Pair, 4> pairs{{
    {Quantity::inductance, Quantity::quality_factor, -6},
    {Quantity::capacitance, Quantity::dissipation_factor, -12},
    {Quantity::ac_resistance, Quantity::quality_factor, 0},
    {Quantity::ac_resistance, Quantity::dissipation_factor, 0},
}};

bool fits(std::string_view frame) {
    return std::ranges::all_of(settled, [&](const Settled& each) {
        return frame[each.place] >= '0' && frame[each.place] <= each.last;
    });
}

/// Dashes or blanks in place of a value.
bool is_empty(std::string_view field) {
    return field == "------" || field == "      ";
}

/// The value in one field; nothing where it is no number that fills the field, with a point.
bool add_value(Frame& into, std::string_view field, Quantity quantity, int power,
               const MeterSetting& setting) {
    if (is_empty(field)) {
        add_out_of_range(into, quantity, State::over_range, setting);
        return true;
    }
    const auto number = plain_number(field, true);
    if (!number || number->decimals == 0) return false;
    add_number(into, quantity, number->counts, power - number->decimals, setting);
    return true;
}

std::size_t judged(std::string_view frame, Frame& into) {
    if (!fits(frame)) return piece(into, frame.size(), Verdict::bad_structure);
    const char unit = frame[unit_at];
    if (frame[display_at] != '1' || unit == '%')
        return piece(into, frame.size(), Verdict::not_live, meter_notes::relative);
    if (unit < '0' || unit > '2') return piece(into, frame.size(), Verdict::bad_structure);
    const auto pair_number = static_cast<std::size_t>(frame[pair_at] - '0');
    if (pair_number >= pairs.size())
        return other_function(into, frame.size(), "a pair that is not L-Q, C-D, R-Q or R-D");
    const Pair& pair = pairs[pair_number];
    const MeterSetting as_sent{.quantities = {},
                               .circuit = frame[circuit_at] == '1' ? Circuit::parallel : Circuit::series,
                               .frequency_hz =
                                   frequencies_hz[static_cast<std::size_t>(frame[frequency_at] - '0')],
                               .range_limit = {}};
    const int power = pair.power + 3 * (unit - '0');
    const bool both = add_value(into, frame.substr(main_at, value_length), pair.main, power, as_sent) &&
                      add_value(into, frame.substr(second_at, value_length), pair.second, 0, as_sent);
    if (both) return piece(into, frame.size(), Verdict::reading);
    into.readings.clear();
    return piece(into, frame.size(), Verdict::bad_structure);
}

/// A command that comes back, as {A0}.
bool begins_with_command(std::string_view buffer) {
    const auto is_inner = [](char character) { return is_printable(character) && character != shape.start; };
    return buffer.size() >= command_length && buffer[0] == shape.start && is_inner(buffer[1]) &&
           is_inner(buffer[2]) && buffer[3] == shape.end;
}

} // namespace

/// A frame says itself how the meter is set.
std::size_t scan_lcr_brace30(std::string_view buffer, const MeterSetting&, Frame& into) {
    if (begins_with_command(buffer)) return piece(into, command_length, Verdict::aside);
    if (const auto no_frame = rejected(buffer, shape, into)) return *no_frame;
    return judged(buffer.substr(0, shape.length), into);
}

namespace {

/// A number that fills its field: five digits, or a minus and four, and a point.
std::string field_of(const ShownNumber& shown, int unit_power) {
    const int digits = shown.counts < 0 ? 4 : 5;
    std::string text = in_digits(shown.counts, digits);
    text.insert(text.size() - static_cast<std::size_t>(unit_power - shown.power), ".");
    return shown.counts < 0 ? "-" + text : text;
}

std::optional<ShownNumber> number_for_field(std::optional<double> value, int unit_power) {
    const bool negative = value && *value < 0.0;
    return shown_number(value, unit_power - (negative ? 3 : 4), unit_power - 1, negative ? 9999 : 99'999);
}

} // namespace

std::string show_lcr_brace30(ShownValues values, const MeterSetting& setting) {
    const auto pair = std::ranges::find_if(pairs, [&](const Pair& each) {
        return each.main == quantity_at(setting, 0) && each.second == quantity_at(setting, 1);
    });
    const auto frequency = std::ranges::find(frequencies_hz, setting.frequency_hz.value());
    std::string main(value_length, '-');
    int unit = 0;
    for (; unit < 2 && !number_for_field(values[0], pair->power + 3 * unit);)
        ++unit;
    if (const auto shown = number_for_field(values[0], pair->power + 3 * unit))
        main = field_of(*shown, pair->power + 3 * unit);
    const auto second = number_for_field(values[1], 0);
    const auto digit = [](auto number) { return static_cast<char>('0' + number); };
    std::string frame(1, shape.start);
    frame += digit(pair - pairs.begin());
    frame += digit(frequency - frequencies_hz.begin());
    frame += "01113"
             "10"; // 1 V, direct, automatic range, slow, not cleared, beeper off, continuous
    frame += digit(setting.circuit == Circuit::parallel ? 1 : 0);
    frame += "121"; // serial output on, no comparator, 100 ohm
    frame += main + (second ? field_of(*second, 0) : std::string(value_length, '-'));
    frame += digit(unit);
    return frame + "51" + shape.end;
}

} // namespace coilward
