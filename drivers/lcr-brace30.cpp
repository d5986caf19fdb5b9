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

/// The value in one field; nothing where it has digits but is no number.
std::optional<DecodedReading> value(std::string_view field, Quantity quantity, int power,
                                    const MeterSetting& setting) {
    if (std::ranges::none_of(field, is_digit)) return out_of_range(quantity, State::over_range, setting);
    const auto number = plain_number(without_blanks(field));
    if (!number) return std::nullopt;
    return counted(quantity, number->counts, power - number->decimals, setting);
}

Scan judged(std::string_view frame) {
    if (!fits(frame)) return piece(frame.size(), Verdict::bad_structure);
    const char unit = frame[unit_at];
    if (frame[display_at] != '1' || unit == '%')
        return piece(frame.size(), Verdict::not_live, meter_notes::relative);
    if (unit < '0' || unit > '2') return piece(frame.size(), Verdict::bad_structure);
    const auto pair_number = static_cast<std::size_t>(frame[pair_at] - '0');
    if (pair_number >= pairs.size())
        return other_function(frame.size(), "a pair that is not L-Q, C-D, R-Q or R-D");
    const Pair& pair = pairs[pair_number];
    const MeterSetting as_sent{.quantities = {},
                               .circuit = frame[circuit_at] == '1' ? Circuit::parallel : Circuit::series,
                               .frequency_hz =
                                   frequencies_hz[static_cast<std::size_t>(frame[frequency_at] - '0')],
                               .range_limit = {}};
    const int power = pair.power + 3 * (unit - '0');
    auto main = value(frame.substr(main_at, value_length), pair.main, power, as_sent);
    auto second = value(frame.substr(second_at, value_length), pair.second, 0, as_sent);
    if (!main || !second) return piece(frame.size(), Verdict::bad_structure);
    Scan scan = piece(frame.size(), Verdict::reading);
    scan.frame.readings.reserve(2);
    scan.frame.readings.push_back(std::move(*main));
    scan.frame.readings.push_back(std::move(*second));
    return scan;
}

/// A command that comes back, as {A0}.
bool begins_with_command(std::string_view buffer) {
    const auto is_inner = [](char character) { return is_printable(character) && character != shape.start; };
    return buffer.size() >= command_length && buffer[0] == shape.start && is_inner(buffer[1]) &&
           is_inner(buffer[2]) && buffer[3] == shape.end;
}

} // namespace

/// A frame says itself how the meter is set.
Scan scan_lcr_brace30(std::string_view buffer, const MeterSetting&) {
    if (begins_with_command(buffer)) return piece(command_length, Verdict::aside);
    if (auto no_frame = rejected(buffer, shape)) return std::move(*no_frame);
    return judged(buffer.substr(0, shape.length));
}

} // namespace coilward
