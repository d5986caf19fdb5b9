// stx16, version 01: sixteen characters for two displays, ASCII but for both ends; the meter sends them
// unasked.
//
//   02  S  L  UU  Q  P  LLLL  UUUU  0D
//
//   S     0 both plus, 1 upper minus, 2 lower minus, 3 both minus; 4 is version 02, another layout
//   L     unit of the lower display: 0 none, 1 degrees Celsius, 2 Fahrenheit
//   UU    unit code of the upper display
//   Q P   decimals of the lower and of the upper display, 0 to 3
//   LLLL  digits of the lower display
//   UUUU  digits of the upper display
//
// Extech protocol sheet of all versions; the same layout in Lutron manuals. The upper display is read.

#include "meter/frame_writing.h"
#include "stx16_frame.h"

namespace coilward {
namespace {

constexpr bool is_from_zero_to(char last, char character) {
    return character >= '0' && character <= last;
}

std::size_t judged(std::string_view frame, const MeterSetting& setting, Frame& into) {
    const char signs = frame[1];
    const char decimals = frame[6];
    const bool fields_fit = is_from_zero_to('3', signs) && is_from_zero_to('2', frame[2]) &&
                            is_from_zero_to('3', frame[5]) && is_from_zero_to('3', decimals);
    const auto lower_digits = std::ranges::count_if(frame.substr(7, 4), is_digit);
    if (!fields_fit || (lower_digits != 0 && lower_digits != 4))
        return piece(into, frame.size(), Verdict::bad_structure);
    const bool upper_is_negative = signs == '1' || signs == '3';
    return stx16::value(frame.substr(3, 2), frame.substr(11, 4), decimals, upper_is_negative, setting, into);
}

} // namespace

std::size_t scan_stx16_v1(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    if (const auto no_frame = rejected(buffer, stx16::frame, into)) return *no_frame;
    return judged(buffer.substr(0, stx16::frame.length), setting, into);
}

/// Which characters stand for the arrows of over-range is not known. Nothing is on the lower display.
std::string show_stx16_v1(ShownValues values, const MeterSetting& setting) {
    const auto shown = stx16::shown(values[0], quantity_at(setting, 0), 9999);
    const bool negative = shown && shown->counts < 0;
    std::string bytes(1, stx16::frame.start);
    bytes +=
        (negative ? "10" : "00") + std::string(stx16::unit_of(quantity_at(setting, 0), shown).code) + "0";
    bytes += shown ? stx16::decimals_of(*shown, quantity_at(setting, 0)) : '0';
    bytes += "0000" + (shown ? in_digits(shown->counts, 4) : "^^^^");
    return bytes + stx16::frame.end;
}

} // namespace coilward
