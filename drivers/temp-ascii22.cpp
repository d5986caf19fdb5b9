// temp-ascii22: twenty-two characters, sent for each letter D.
//
//   CCCCCCC _ VVVVVVV _ UUUUU 0D
//
//   CCCCCCC  range or channel: T1, T2
//   VVVVVVV  value with point and minus; OL or -OL
//   UUUUU    C or F
//
// Sper 800005 manual, p. 9-12 (its 0x13 at the end is decimal 13); Perfect-Prime TC0301 protocol sheet. Each
// field is filled up with blanks.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"
#include "meter/meter_notes.h"

namespace coilward {
namespace {

constexpr EndedFrame shape{.body = 21, .end = "\r"};

std::size_t judged(std::string_view body, const MeterSetting& setting, Frame& into) {
    const std::string_view channel = without_blanks(body.substr(0, 7));
    const std::string_view text = without_blanks(body.substr(8, 7));
    const std::string_view unit = without_blanks(body.substr(16, 5));
    const bool fields_fit = body[7] == ' ' && body[15] == ' ' && (unit == "C" || unit == "F");
    if (!fields_fit) return piece(into, shape.length(), Verdict::bad_structure);
    if (channel == "T1-T2") return piece(into, shape.length(), Verdict::not_live, difference_note);
    if (channel != "T1" && channel != "T2") return piece(into, shape.length(), Verdict::bad_structure);
    if (text == "OL" || text == "-OL") {
        const State end = text == "OL" ? State::over_range : State::under_range;
        add_out_of_range(into, Quantity::temperature, end, setting);
        return piece(into, shape.length(), Verdict::reading);
    }
    const auto number = plain_number(text);
    if (!number) return piece(into, shape.length(), Verdict::bad_structure);
    DecodedReading& decoded =
        add_number(into, Quantity::temperature, number->counts, -number->decimals, setting);
    if (unit == "F") to_celsius(decoded);
    return piece(into, shape.length(), Verdict::reading);
}

} // namespace

std::size_t scan_temp_ascii22(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    if (const auto no_frame = rejected(buffer, shape, into)) return *no_frame;
    return judged(buffer.substr(0, shape.body), setting, into);
}

std::string show_temp_ascii22(ShownValues values, const MeterSetting&) {
    const auto shown = shown_number(values[0], -1, 0, 9999);
    const std::string text = shown ? with_point(shown->counts, -shown->power) : "OL";
    return blanks_behind("T1", 8) + blanks_behind(text, 8) + blanks_behind("C", 5) + std::string(shape.end);
}

} // namespace coilward
