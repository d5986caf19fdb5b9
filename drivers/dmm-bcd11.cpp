// dmm-bcd11: eleven characters, each conversion sent twice; the meter sends them unasked.
//
//   R  DDDD  F  S  OO  0D  0A
//
//   R     range: 30, 31, ... from the lowest up, as the function counts them
//   DDDD  digits, the most significant first, without point
//   F     function
//   S     0 1 1 0 (7-bit) with four bits: Judge, Sign, BATT, OL
//   OO    two option characters; their bits stand on a page that was not seen
//
// Ideal ND2385 guide, p. 17-20: tables; the manual lists the characters in this order. Every character
// before the end is 30 to 3F. The line has seven bits and odd parity; read with eight bits, the parity is
// seen in bit 7. A frame is of one kind or of the other, never mixed.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"
#include "meter/meter_notes.h"

#include <algorithm>
#include <array>

namespace coilward {
namespace {

constexpr EndedFrame shape{.body = 9, .end = "\r\n", .lowest = '0', .highest = '?', .ignores_bit_7 = true};

constexpr int overload_bit = 1;
constexpr int battery_bit = 2;
constexpr int sign_bit = 4;
constexpr int counts_at_range_end = 4000;

struct Function {
    char code;
    Quantity quantity;
    int power; ///< of ten: one count in the lowest range, SI unit; each range has ten times that of the one
               ///< below
    int ranges;
};

constexpr std::array<Function, 3> functions{{
    {'\x3B', Quantity::dc_voltage, -4, 5},
    {'\x33', Quantity::dc_resistance, -1, 6},
    {'\x36', Quantity::capacitance, -12, 8},
}};

struct OtherFunction {
    char code;
    std::string_view name;
};

constexpr std::array<OtherFunction, 6> other_functions{{
    {'\x3D', "microamperes"},
    {'\x39', "milliamperes"},
    {'\x3F', "amperes"},
    {'\x35', "the continuity test"},
    {'\x31', "the diode test"},
    {'\x32', "frequency"},
}};

constexpr std::string_view either_voltage_note =
    "the frame does not tell direct from alternating volts: the meter must be on direct volts";

std::string_view note_of(Quantity quantity, int status) {
    if ((status & battery_bit) != 0) return meter_notes::low_battery;
    return quantity == Quantity::dc_voltage ? either_voltage_note : std::string_view{};
}

std::size_t measured(const Function& function, int range, long long counts, int status,
                     const MeterSetting& setting, Frame& into) {
    if ((status & sign_bit) != 0 && function.quantity == Quantity::dc_resistance)
        return piece(into, shape.length(), Verdict::senseless, "a resistance below zero");
    if (counts > counts_at_range_end)
        return piece(into, shape.length(), Verdict::senseless, meter_notes::beyond_display);
    const int power = function.power + range;
    const bool negative = (status & sign_bit) != 0;
    const std::string_view note = note_of(function.quantity, status);
    if ((status & overload_bit) == 0)
        add_number(into, function.quantity, negative ? -counts : counts, power, setting);
    else
        add_beyond_range(into, function.quantity, negative, counts_at_range_end, power, setting);
    return piece(into, shape.length(), Verdict::reading, note);
}

/// A whole frame without its parity bits.
std::size_t judged(std::string_view body, const MeterSetting& setting, Frame& into) {
    const auto digits = plain_number(body.substr(1, 4));
    const int status = body[6] - '0';
    const int range = body[0] - '0';
    if (!digits) return piece(into, shape.length(), Verdict::bad_structure);
    const auto other = std::ranges::find(other_functions, body[5], &OtherFunction::code);
    if (other != other_functions.end()) return other_function(into, shape.length(), other->name);
    const auto function = std::ranges::find(functions, body[5], &Function::code);
    if (function == functions.end() || range >= function->ranges)
        return piece(into, shape.length(), Verdict::bad_structure);
    return measured(*function, range, digits->counts, status, setting, into);
}

} // namespace

std::size_t scan_dmm_bcd11(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    return scan_with_parity<shape>(buffer, into,
                                   [&](std::string_view body) { return judged(body, setting, into); });
}

/// The option characters are not known: zeros stand for them.
std::string show_dmm_bcd11(ShownValues values, const MeterSetting& setting) {
    const auto function = std::ranges::find(functions, quantity_at(setting, 0), &Function::quantity);
    const int highest = function->power + function->ranges - 1;
    const auto shown = shown_number(values[0], function->power, highest, counts_at_range_end - 1);
    const ShownNumber number = shown.value_or(ShownNumber{counts_at_range_end, highest});
    const int status = (number.counts < 0 ? sign_bit : 0) | (shown ? 0 : overload_bit);
    std::string frame(1, static_cast<char>('0' + number.power - function->power));
    frame += in_digits(number.counts, 4);
    frame += function->code;
    frame += static_cast<char>('0' + status);
    return frame + "00" + std::string(shape.end);
}

} // namespace coilward
