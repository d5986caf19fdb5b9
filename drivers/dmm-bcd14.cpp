// dmm-bcd14: fourteen characters, about two frames a second; the meter sends them unasked.
//
//   R  DDDDD  F  S  OOOO  0D  0A
//
//   R      range: 30, 31, ... from the lowest up
//   DDDDD  digits, the most significant first, without point
//   F      function
//   S      status; OOOO options: their bits were not seen
//
// From a programmer's blog: the order, the functions, and the ranges of capacitance. The ranges of volts and
// ohms were not seen, so that only a capacitance is read, and only where no status and no option is set. The
// line has seven bits and odd parity; read with eight bits, the parity is seen in bit 7.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"
#include "meter/meter_notes.h"

#include <algorithm>
#include <array>

namespace coilward {
namespace {

constexpr EndedFrame shape{.body = 12, .end = "\r\n", .lowest = '0', .highest = '?', .ignores_bit_7 = true};

constexpr char capacitance_code = '\x36';
constexpr int capacitance_ranges = 4;
constexpr long long most_counts = 22'000; ///< as its ranges are named
constexpr int capacitance_power =
    -12; ///< one count in 22.000 nF, in farad; each further range has ten times that

struct OtherFunction {
    char code;
    std::string_view name;
};

constexpr std::array<OtherFunction, 11> other_functions{{
    {'\x3B', "volts, whose ranges no document tells"},
    {'\x33', "ohms, whose ranges no document tells"},
    {'\x3D', "microamperes"},
    {'\x3F', "milliamperes"},
    {'\x30', "amperes"},
    {'\x39', "amperes"},
    {'\x35', "the continuity test"},
    {'\x31', "the diode test"},
    {'\x32', "frequency"},
    {'\x34', "temperature, whose ranges no document tells"},
    {'\x3E', "an adapter"},
}};

/// The part before the end, without its parity bits.
std::size_t judged(std::string_view body, const MeterSetting& setting, Frame& into) {
    const auto digits = plain_number(body.substr(1, 5));
    const int range = body[0] - '0';
    if (!digits) return piece(into, shape.length(), Verdict::bad_structure);
    const auto other = std::ranges::find(other_functions, body[6], &OtherFunction::code);
    if (other != other_functions.end()) return other_function(into, shape.length(), other->name);
    if (body[6] != capacitance_code || range >= capacitance_ranges)
        return piece(into, shape.length(), Verdict::bad_structure);
    if (body.substr(7) != "00000")
        return piece(into, shape.length(), Verdict::senseless,
                     "the frame has bits that no document explains; they may say overload");
    if (digits->counts > most_counts)
        return piece(into, shape.length(), Verdict::senseless, meter_notes::beyond_display);
    add_number(into, Quantity::capacitance, digits->counts, capacitance_power + range, setting);
    return piece(into, shape.length(), Verdict::reading);
}

} // namespace

std::size_t scan_dmm_bcd14(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    return scan_with_parity<shape>(buffer, into,
                                   [&](std::string_view body) { return judged(body, setting, into); });
}

/// How it shows overload is not known; with any status there is no reading.
std::string show_dmm_bcd14(ShownValues values, const MeterSetting&) {
    const auto shown = shown_number(values[0], capacitance_power, capacitance_power + capacitance_ranges - 1,
                                    most_counts - 1);
    const ShownNumber number = shown.value_or(ShownNumber{most_counts, capacitance_power});
    std::string frame(1, static_cast<char>('0' + number.power - capacitance_power));
    frame += in_digits(number.counts, 5);
    frame += capacitance_code;
    return frame + (shown ? "00000" : "10000") + std::string(shape.end);
}

} // namespace coilward
