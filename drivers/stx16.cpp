// stx16, version 02: sixteen characters, ASCII but for both ends; the meter sends them unasked.
//
//   02  4  C  UU  S  P  DDDDDDDD  0D
//
//   4         version; 0 to 3 is version 01, another layout
//   C         display or channel 1 to 9; 0: a date and time record
//   UU        unit code, letters and digits
//   S         0 plus, 1 minus
//   P         decimals, 0 to 3
//   DDDDDDDD  digits, the most significant first; arrows when out of range; no display of these meters has
//             more than five digits
//
// Lutron DM-9962SD manual, p. 17; unit codes from the Extech protocol sheets. There is no checksum.

#include "meter/frame_writing.h"
#include "meter/meter_notes.h"
#include "stx16_frame.h"

namespace coilward {
namespace {

/// A whole frame, from its start to its end.
std::size_t judged(std::string_view frame, const MeterSetting& setting, Frame& into) {
    const char channel = frame[2];
    const char sign = frame[5];
    const char decimals = frame[6];
    if (frame[1] != '4' || !is_digit(channel)) return piece(into, frame.size(), Verdict::bad_structure);
    if (channel != '1') return piece(into, frame.size(), Verdict::aside, "the second display, or the clock");
    const bool fields_fit = (sign == '0' || sign == '1') && decimals >= '0' && decimals <= '3';
    if (!fields_fit) return piece(into, frame.size(), Verdict::bad_structure);
    if (is_digit(frame[7]) && frame.substr(7, 3) != "000")
        return piece(into, frame.size(), Verdict::senseless, meter_notes::beyond_display);
    return stx16::value(frame.substr(3, 2), frame.substr(7, 8), decimals, sign == '1', setting, into);
}

} // namespace

std::size_t scan_stx16(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    if (const auto no_frame = rejected(buffer, stx16::frame, into)) return *no_frame;
    return judged(buffer.substr(0, stx16::frame.length), setting, into);
}

/// Which characters stand for the arrows of over-range is not known.
std::string show_stx16(ShownValues values, const MeterSetting& setting) {
    const auto shown = stx16::shown(values[0], quantity_at(setting, 0), 19'999);
    const bool negative = shown && shown->counts < 0;
    std::string bytes(1, stx16::frame.start);
    bytes += "41" + std::string(stx16::unit_of(quantity_at(setting, 0), shown).code) + (negative ? "1" : "0");
    bytes += shown ? stx16::decimals_of(*shown, quantity_at(setting, 0)) : '0';
    bytes += shown ? in_digits(shown->counts, 8) : "^^^^^^^^";
    return bytes + stx16::frame.end;
}

} // namespace coilward
