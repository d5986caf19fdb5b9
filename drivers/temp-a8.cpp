// temp-a8: eight bytes, sent for each letter A.
//
//   02  M  D  NN NN  SS SS  03
//
//   M   bit 7 Celsius, 6 low battery, 5 hold, 4 relative, 3 probe type;
//       bits 2-0: 000 normal, 001 maximum, 010 minimum, 100 average, 111 in the background
//   D   bits 7-6: 00, 01 main T1 - T2; 10 main T1; 11 main T2
//       of the lower display: bit 5 no decimal, 4 minus, 3 over range; of the main one: 2, 1, 0
//   NN  main display, four digits, one in each half byte
//   SS  lower display, the same
//
// Perfect-Prime TC0301 protocol sheet; Voltcraft 300-303 data sheet. There is no checksum.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"
#include "meter/meter_notes.h"

#include <algorithm>

namespace coilward {
namespace {

constexpr std::size_t frame_length = 8;
constexpr char frame_start = '\x02';
constexpr char frame_end = '\x03';

constexpr unsigned celsius_bit = 0x80;
constexpr unsigned battery_bit = 0x40;
constexpr unsigned hold_bit = 0x20;
constexpr unsigned relative_bit = 0x10;
constexpr unsigned mode_bits = 0x07;

constexpr unsigned single_probe_bit = 0x80;
constexpr unsigned main_whole_bit = 0x04;
constexpr unsigned main_minus_bit = 0x02;
constexpr unsigned main_over_bit = 0x01;

/// Four digits in two bytes; nothing where a half byte is none.
std::optional<long long> digits_at(std::string_view frame, std::size_t place) {
    long long counts = 0;
    for (const unsigned byte : {byte_at(frame, place), byte_at(frame, place + 1)})
        for (const unsigned digit : {byte >> 4U, byte & 0x0FU}) {
            if (digit > 9) return std::nullopt;
            counts = 10 * counts + digit;
        }
    return counts;
}

bool is_mode(unsigned mode) {
    return mode <= 2 || mode == 4 || mode == 7;
}

/// Why this is no live temperature; empty where it is one.
std::string_view reason_against(unsigned state, unsigned display) {
    if ((state & hold_bit) != 0) return meter_notes::held;
    if ((state & relative_bit) != 0) return meter_notes::relative;
    if ((state & mode_bits) != 0) return meter_notes::extreme;
    if ((display & single_probe_bit) == 0) return difference_note;
    return {};
}

/// A frame whose main display shows these digits, if any.
std::size_t judged(std::string_view frame, std::optional<long long> digits, const MeterSetting& setting,
                   Frame& into) {
    const unsigned state = byte_at(frame, 1);
    const unsigned display = byte_at(frame, 2);
    if (const auto reason = reason_against(state, display); !reason.empty())
        return piece(into, frame_length, Verdict::not_live, reason);
    const std::string_view note = (state & battery_bit) != 0 ? meter_notes::low_battery : std::string_view{};
    const bool is_negative = (display & main_minus_bit) != 0;
    if (!digits || (display & main_over_bit) != 0) {
        const State end = is_negative ? State::under_range : State::over_range;
        add_out_of_range(into, Quantity::temperature, end, setting);
        return piece(into, frame_length, Verdict::reading, note);
    }
    const int power = (display & main_whole_bit) != 0 ? 0 : -1;
    DecodedReading& decoded =
        add_number(into, Quantity::temperature, is_negative ? -*digits : *digits, power, setting);
    if ((state & celsius_bit) == 0) to_celsius(decoded);
    return piece(into, frame_length, Verdict::reading, note);
}

} // namespace

std::size_t scan_temp_a8(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    if (buffer.empty()) return 0;
    const std::size_t start = std::min(buffer.find(frame_start), buffer.size());
    if (start > 0) return piece(into, start, Verdict::no_start);
    if (buffer.size() < frame_length) return 0;
    const std::string_view frame = buffer.substr(0, frame_length);
    const auto digits = digits_at(frame, 3);
    const bool shows_something = digits || (byte_at(frame, 2) & main_over_bit) != 0;
    const bool fits = frame.back() == frame_end && is_mode(byte_at(frame, 1) & mode_bits) && shows_something;
    return fits ? judged(frame, digits, setting, into) : passed_over(into, buffer, frame_length, frame_start);
}

std::string show_temp_a8(ShownValues values, const MeterSetting&) {
    const auto shown = shown_number(values[0], -1, 0, 9999);
    const unsigned ends = shown ? 0 : main_over_bit;
    const unsigned whole = shown && shown->power == 0 ? main_whole_bit : 0;
    const unsigned minus = shown && shown->counts < 0 ? main_minus_bit : 0;
    std::string frame(1, frame_start);
    frame += byte_of(celsius_bit);
    frame += byte_of(single_probe_bit | ends | whole | minus);
    frame += in_half_bytes(shown ? shown->counts : 0);
    frame += in_half_bytes(0);
    return frame + frame_end;
}

} // namespace coilward
