// stx16, version 02: sixteen characters, ASCII but for both ends; the meter sends them unasked.
//
//   02  4  C  UU  S  P  DDDDDDDD  0D
//
//   4         version; 0 to 3 is version 01, another layout
//   C         display or channel 1 to 9; 0: a date and time record
//   UU        unit code, letters and digits
//   S         0 plus, 1 minus
//   P         decimals, 0 to 3
//   DDDDDDDD  digits, the most significant first; arrows when out of range
//
// Lutron DM-9962SD manual, p. 17; unit codes from the Extech protocol sheets. There is no checksum.

#include "meter/named_reading.h"
#include "meter/numeric_response.h"

#include <algorithm>
#include <array>

namespace coilward {
namespace {

constexpr std::size_t frame_length = 16;
constexpr char frame_start = '\x02';
constexpr char frame_end = '\x0D';

struct Unit {
    std::string_view code;
    Quantity quantity;
    int power; ///< of ten, to the SI unit
    bool fahrenheit = false;
};

constexpr std::array<Unit, 13> units{{
    {"01", Quantity::temperature, 0},
    {"02", Quantity::temperature, 0, true},
    {"18", Quantity::dc_voltage, -3},
    {"34", Quantity::dc_voltage, 0},
    {"38", Quantity::dc_resistance, 0},
    {"39", Quantity::dc_resistance, 3},
    {"40", Quantity::dc_resistance, 6},
    {"68", Quantity::inductance, -6},
    {"41", Quantity::inductance, -3},
    {"42", Quantity::inductance, 0},
    {"A4", Quantity::capacitance, -12},
    {"43", Quantity::capacitance, -9},
    {"44", Quantity::capacitance, -6},
}};

bool is_digit(char character) {
    return character >= '0' && character <= '9';
}

bool is_printable(char character) {
    return character >= ' ' && character <= '~';
}

void as_celsius(DecodedReading& decoded) {
    decoded.reading.value = (*decoded.reading.value - 32.0) * 5.0 / 9.0;
    decoded.resolution *= 5.0 / 9.0;
}

Scan piece(std::size_t used, Verdict verdict, std::string note = {}) {
    return {.used = used,
            .frame = {.verdict = verdict, .readings = {}, .bytes = {}, .note = std::move(note)}};
}

/// A whole frame, from its start to its end.
Scan judged(std::string_view frame, const MeterSetting& setting) {
    const char channel = frame[2];
    const std::string_view code = frame.substr(3, 2);
    const char sign = frame[5];
    const char decimals = frame[6];
    const std::string_view digits = frame.substr(7, 8);
    if (frame[1] != '4' || !is_digit(channel)) return piece(frame_length, Verdict::bad_structure);
    if (channel != '1') return piece(frame_length, Verdict::aside, "the second display, or the clock");
    const bool fields_fit = (sign == '0' || sign == '1') && decimals >= '0' && decimals <= '3';
    if (!fields_fit) return piece(frame_length, Verdict::bad_structure);
    if (!std::ranges::all_of(digits, is_digit))
        return piece(frame_length, Verdict::senseless, "the meter shows that it is out of its range");
    const auto unit = std::ranges::find(units, code, &Unit::code);
    if (unit == units.end()) return piece(frame_length, Verdict::senseless, "not a quantity of this bench");
    if (needs_frequency(unit->quantity) && !setting.frequency_hz)
        return piece(frame_length, Verdict::senseless,
                     "at which frequency was it measured? the frame does not say");
    const auto number = numeric_response(digits, unit->power - (decimals - '0'));
    if (!number) return piece(frame_length, Verdict::bad_structure);
    DecodedReading decoded{.reading = named_reading(unit->quantity, setting),
                           .resolution = number->resolution};
    decoded.reading.value = sign == '1' ? -number->value : number->value;
    if (unit->fahrenheit) as_celsius(decoded);
    Scan scan = piece(frame_length, Verdict::reading);
    scan.frame.readings.push_back(std::move(decoded));
    return scan;
}

} // namespace

Scan scan_stx16(std::string_view buffer, const MeterSetting& setting) {
    if (buffer.empty()) return {};
    if (buffer.front() != frame_start)
        return piece(std::min(buffer.find(frame_start), buffer.size()), Verdict::no_start);
    for (std::size_t i = 1; i < std::min(buffer.size(), frame_length); ++i) {
        if (buffer[i] == frame_start) return piece(i, Verdict::too_short);
        const bool fits = i + 1 == frame_length ? buffer[i] == frame_end : is_printable(buffer[i]);
        if (!fits) return piece(i, Verdict::bad_structure);
    }
    return buffer.size() < frame_length ? Scan{} : judged(buffer.substr(0, frame_length), setting);
}

} // namespace coilward
