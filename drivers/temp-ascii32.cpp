// temp-ascii32: thirty-two characters a second; the meter sends them unasked.
//
//   k CC M H _ VVVVV U _ LL _ VVVVV _ LL _ VVVVV 0D 0A
//
//   k      type of the probe
//   CC     T1, T2, or Td for their difference
//   M      mode: blank, R, A or a
//   H      H held, M from memory, else blank
//   VVVVV  value; OVRG over range, dashes without a probe
//   U      C or F
//   LL     labels of the two values that follow: lowest and highest
//
// Hanna HI93551R/52R manual, p. 15.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"
#include "meter/meter_notes.h"

#include <algorithm>

namespace coilward {
namespace {

constexpr EndedFrame shape{.body = 30, .end = "\r\n"};

/// Why this is no live temperature; empty where it is one.
std::string_view reason_against(std::string_view body) {
    if (body.substr(1, 2) == "Td") return difference_note;
    if (body[3] != ' ') return "the meter is in a mode that shows another value than the live one";
    if (body[4] == 'H') return meter_notes::held;
    if (body[4] == 'M') return "a value from memory";
    return {};
}

bool fits(std::string_view body) {
    const std::string_view channel = body.substr(1, 2);
    const auto is_one_of = [](char character, std::string_view known) {
        return known.find(character) != std::string_view::npos;
    };
    return (channel == "T1" || channel == "T2" || channel == "Td") && is_one_of(body[3], " RAa") &&
           is_one_of(body[4], " HM") && is_one_of(body[11], "CF") && body[5] == ' ' && body[12] == ' ';
}

std::size_t judged(std::string_view body, const MeterSetting& setting, Frame& into) {
    if (!fits(body)) return piece(into, shape.length(), Verdict::bad_structure);
    if (const auto reason = reason_against(body); !reason.empty())
        return piece(into, shape.length(), Verdict::not_live, reason);
    const std::string_view text = without_blanks(body.substr(6, 5));
    if (text == "OVRG") {
        add_out_of_range(into, Quantity::temperature, State::over_range, setting);
        return piece(into, shape.length(), Verdict::reading);
    }
    if (text == "----") return piece(into, shape.length(), Verdict::not_live, "no probe");
    const auto number = plain_number(text);
    if (!number) return piece(into, shape.length(), Verdict::bad_structure);
    DecodedReading& decoded =
        add_number(into, Quantity::temperature, number->counts, -number->decimals, setting);
    if (body[11] == 'F') to_celsius(decoded);
    return piece(into, shape.length(), Verdict::reading);
}

} // namespace

std::size_t scan_temp_ascii32(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    if (const auto no_frame = rejected(buffer, shape, into)) return *no_frame;
    return judged(buffer.substr(0, shape.body), setting, into);
}

std::string show_temp_ascii32(ShownValues values, const MeterSetting&) {
    const auto shown = shown_number(values[0], -1, 0, 9999);
    const std::string text = shown ? blanks_before(with_point(shown->counts, -shown->power), 5) : "OVRG ";
    const std::string& lowest_and_highest = shown ? text : "---- ";
    return "kT1   " + text + "C Lo " + lowest_and_highest + " Hi " + lowest_and_highest +
           std::string(shape.end);
}

} // namespace coilward
