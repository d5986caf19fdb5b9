// dmm-bcd11-7n2: eleven bytes, each conversion sent twice; the meter sends them unasked.
//
//   S  DDDD  F  R  M  N  0D  0A
//
//   S     bit 3 minus, 2 battery, 0 overload
//   DDDD  ASCII digits, the most significant first, without point
//   F     function: 0 DC volts, 1 AC volts, 2 DC mA, 3 AC mA, 4 ohms, 5 buzzer, 6 diode, 7 adapter, 8 DC A,
//         9 AC A, A frequency, C capacitance
//   R     range: 0 for 400 mV, 400 ohm, 4 nF, ...; each step has ten times that
//   M     bits 3-0: maximum, minimum, relative, hold
//   N     bits 3-0: memory, automatic range, fixed range, automatic off
//
// From a hobby page that restates the meter's table. It does not say whether S, F, R, M, N are offset by 30;
// both are taken, if all five are alike.

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"
#include "meter/meter_notes.h"

#include <algorithm>
#include <array>

namespace coilward {
namespace {

constexpr std::size_t frame_length = 11;
constexpr std::string_view frame_end = "\r\n";

constexpr unsigned minus_bit = 8;
constexpr unsigned battery_bit = 4;
constexpr unsigned overload_bit = 1;
constexpr unsigned known_status_bits = minus_bit | battery_bit | overload_bit;
constexpr unsigned extreme_bits = 0x0C;
constexpr unsigned relative_bit = 2;
constexpr unsigned hold_bit = 1;
constexpr unsigned memory_bit = 8;
constexpr int counts_at_range_end = 4000;

/// One function: a quantity of this bench, or what the meter is on instead.
struct Function {
    std::string_view other;
    Quantity quantity{};
    int power = 0;       ///< of ten: one count in range 0, SI unit
    unsigned ranges = 0; ///< 0: not read
};

constexpr std::array<Function, 13> functions{{
    {{}, Quantity::dc_voltage, -4, 5},
    {"volts AC"},
    {"milliamperes"},
    {"milliamperes AC"},
    {{}, Quantity::dc_resistance, -1, 6},
    {"the buzzer"},
    {"the diode test"},
    {"an adapter"},
    {"amperes"},
    {"amperes AC"},
    {"frequency"},
    {},
    {{}, Quantity::capacitance, -12, 6},
}};

/// The five bytes beside the digits without their offset.
struct Fields {
    unsigned status, function, range, mode, extra;
};

/// Nothing where the front is no frame.
std::optional<Fields> fields_of(std::string_view frame) {
    if (frame.size() < frame_length || frame.substr(frame_length - 2, 2) != frame_end) return std::nullopt;
    if (!std::ranges::all_of(frame.substr(1, 4), is_digit)) return std::nullopt;
    const std::array<char, 5> bytes{frame[0], frame[5], frame[6], frame[7], frame[8]};
    const unsigned offset = static_cast<unsigned char>(bytes[0]) & 0xF0U;
    if (offset != 0 && offset != 0x30) return std::nullopt;
    std::array<unsigned, 5> values{};
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        values[i] = static_cast<unsigned char>(bytes[i]) - offset;
        if (values[i] > 0x0F) return std::nullopt;
    }
    return Fields{values[0], values[1], values[2], values[3], values[4]};
}

std::string_view reason_against(const Fields& fields) {
    if ((fields.mode & extreme_bits) != 0) return meter_notes::extreme;
    if ((fields.mode & relative_bit) != 0) return meter_notes::relative;
    if ((fields.mode & hold_bit) != 0) return meter_notes::held;
    if ((fields.extra & memory_bit) != 0) return "a value from memory";
    return {};
}

std::size_t judged(const Fields& fields, std::string_view digits, const MeterSetting& setting, Frame& into) {
    const bool known = fields.function < functions.size() && (fields.status & ~known_status_bits) == 0;
    if (!known) return piece(into, frame_length, Verdict::bad_structure);
    const Function& function = functions[fields.function];
    if (!function.other.empty()) return other_function(into, frame_length, function.other);
    if (fields.range >= function.ranges) return piece(into, frame_length, Verdict::bad_structure);
    if (const auto reason = reason_against(fields); !reason.empty())
        return piece(into, frame_length, Verdict::not_live, reason);
    const bool negative = (fields.status & minus_bit) != 0;
    if (negative && function.quantity == Quantity::dc_resistance)
        return piece(into, frame_length, Verdict::senseless, "a resistance below zero");
    const std::string_view note =
        (fields.status & battery_bit) != 0 ? meter_notes::low_battery : std::string_view{};
    const int power = function.power + static_cast<int>(fields.range);
    if ((fields.status & overload_bit) != 0) {
        add_beyond_range(into, function.quantity, negative, counts_at_range_end, power, setting);
        return piece(into, frame_length, Verdict::reading, note);
    }
    const long long counts = plain_number(digits)->counts;
    if (counts > counts_at_range_end)
        return piece(into, frame_length, Verdict::senseless, meter_notes::beyond_display);
    add_number(into, function.quantity, negative ? -counts : counts, power, setting);
    return piece(into, frame_length, Verdict::reading, note);
}

} // namespace

/// A part of a frame could pass for one, so that what does not fit is dropped with everything to its end.
std::size_t scan_dmm_bcd11_7n2(std::string_view buffer, const MeterSetting& setting, Frame& into) {
    if (buffer.size() < frame_length) return 0;
    if (const auto fields = fields_of(buffer)) return judged(*fields, buffer.substr(1, 4), setting, into);
    constexpr std::size_t longest_run = 2 * frame_length;
    const std::size_t end = buffer.substr(0, longest_run).find(frame_end);
    if (end != std::string_view::npos)
        return piece(into, end + 2, end + 2 < frame_length ? Verdict::too_short : Verdict::bad_structure);
    return buffer.size() < longest_run ? 0 : piece(into, longest_run, Verdict::no_start);
}

std::string show_dmm_bcd11_7n2(ShownValues values, const MeterSetting& setting) {
    const Quantity quantity = quantity_at(setting, 0);
    const auto function = std::ranges::find_if(
        functions, [&](const Function& each) { return each.ranges > 0 && each.quantity == quantity; });
    const int highest = function->power + static_cast<int>(function->ranges) - 1;
    const auto shown = shown_number(values[0], function->power, highest, counts_at_range_end - 1);
    const ShownNumber number = shown.value_or(ShownNumber{counts_at_range_end, highest});
    constexpr unsigned automatic_range_bit = 4;
    std::string frame(1, byte_of((number.counts < 0 ? minus_bit : 0) | (shown ? 0 : overload_bit)));
    frame += in_digits(number.counts, 4);
    frame += byte_of(static_cast<unsigned>(function - functions.begin()));
    frame += byte_of(static_cast<unsigned>(number.power - function->power));
    frame += byte_of(0);
    frame += byte_of(automatic_range_bit);
    return frame + std::string(frame_end);
}

} // namespace coilward
