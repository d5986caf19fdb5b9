// temp-a45: forty-five bytes, sent for each letter A.
//
//   02  M  A  00 00 00 00  CC CC  (three more channels)  R..  L..  H..  O  P  X  _ _  03
//
//   M    bit 7 Celsius, 6 low battery, 5 hold, 4 relative, 3 T1 - T2, 2-1 mode, 0 recording
//   A    bit 7 automatic off
//   CC   tenths of a degree, high byte first; the first of four channels
//   R L H  four relative, lowest and highest values of two bytes each
//   O    bits 0-3: the channel is over its range; P X the same of relative and highest values
//
// Perfect-Prime TC0304-0309 protocol sheet, Voltcraft 304/309 data sheet, with the example 00 EF = 23.9. The
// last byte is assumed; how a value below zero is coded was not seen. The first channel is read.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"
#include "meter/meter_notes.h"

#include <algorithm>

namespace coilward {
namespace {

constexpr std::size_t frame_length = 45;
constexpr char frame_start = '\x02';
constexpr char frame_end = '\x03';

constexpr unsigned celsius_bit = 0x80;
constexpr unsigned battery_bit = 0x40;
constexpr unsigned hold_bit = 0x20;
constexpr unsigned relative_bit = 0x10;
constexpr unsigned difference_bit = 0x08;
constexpr unsigned mode_bits = 0x06;
constexpr unsigned channel_bits = 0x0F;
constexpr unsigned first_channel_bit = 0x01;
constexpr std::size_t first_channel_at = 7;
constexpr std::size_t over_range_at = 39;

/// Why this is no live temperature; empty where it is one.
std::string_view reason_against(unsigned state) {
    if ((state & hold_bit) != 0) return meter_notes::held;
    if ((state & relative_bit) != 0) return meter_notes::relative;
    if ((state & difference_bit) != 0) return difference_note;
    if ((state & mode_bits) != 0) return meter_notes::extreme;
    return {};
}

std::size_t judged(std::string_view frame, const MeterSetting& setting, Frame& into) {
    constexpr unsigned sign_bit = 0x8000;
    const unsigned state = byte_at(frame, 1);
    if (const auto reason = reason_against(state); !reason.empty())
        return piece(into, frame_length, Verdict::not_live, reason);
    const std::string_view note = (state & battery_bit) != 0 ? meter_notes::low_battery : std::string_view{};
    if ((byte_at(frame, over_range_at) & first_channel_bit) != 0) {
        add_out_of_range(into, Quantity::temperature, State::over_range, setting);
        return piece(into, frame_length, Verdict::reading, note);
    }
    const unsigned tenths = 256 * byte_at(frame, first_channel_at) + byte_at(frame, first_channel_at + 1);
    if ((tenths & sign_bit) != 0)
        return piece(into, frame_length, Verdict::senseless,
                     "perhaps below zero: no document tells how the meter sends that");
    DecodedReading& decoded = add_number(into, Quantity::temperature, tenths, -1, setting);
    if ((state & celsius_bit) == 0) to_celsius(decoded);
    return piece(into, frame_length, Verdict::reading, note);
}

} // namespace

std::size_t scan_temp_a45(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    if (buffer.empty()) return 0;
    const std::size_t start = std::min(buffer.find(frame_start), buffer.size());
    if (start > 0) return piece(into, start, Verdict::no_start);
    if (buffer.size() < frame_length) return 0;
    const std::string_view frame = buffer.substr(0, frame_length);
    const bool fits = frame.back() == frame_end && (byte_at(frame, over_range_at) & ~channel_bits) == 0;
    return fits ? judged(frame, setting, into) : passed_over(into, buffer, frame_length, frame_start);
}

/// The first of four probes; the others lie open. How a temperature below zero is sent is not known.
std::string show_temp_a45(ShownValues values, const MeterSetting&) {
    constexpr long long most_tenths = 20'000;
    const auto shown = shown_number(values[0], -1, -1, most_tenths);
    const bool can_be_shown = shown && shown->counts >= 0;
    std::string frame(frame_length, byte_of(0));
    frame.front() = frame_start;
    frame[1] = byte_of(celsius_bit);
    frame.replace(first_channel_at, 2, in_two_bytes(can_be_shown ? shown->counts : 0));
    frame[over_range_at] = byte_of(can_be_shown ? channel_bits & ~first_channel_bit : channel_bits);
    frame.back() = frame_end;
    return frame;
}

} // namespace coilward
