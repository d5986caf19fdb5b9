#include "meter/frame_pieces.h"

#include "meter/meter_notes.h"

#include <algorithm>
#include <array>
#include <bit>

namespace coilward {
namespace {

bool belongs_to_body(char character, const EndedFrame& frame) {
    if (frame.ignores_bit_7) character = without_bit_7(character);
    return character >= frame.lowest && character <= frame.highest;
}

} // namespace

std::string_view without_blanks(std::string_view text) {
    while (text.starts_with(' '))
        text.remove_prefix(1);
    while (text.ends_with(' '))
        text.remove_suffix(1);
    return text;
}

std::size_t other_function(Frame& into, std::size_t used, std::string_view function) {
    return piece(into, used, Verdict::senseless, meter_notes::is_on(function));
}

std::optional<std::size_t> rejected(std::string_view buffer, const StartedFrame& frame, Frame& into) {
    if (buffer.empty()) return 0;
    if (buffer.front() != frame.start)
        return piece(into, std::min(buffer.find(frame.start), buffer.size()), Verdict::no_start);
    for (std::size_t i = 1; i < std::min(buffer.size(), frame.length); ++i) {
        if (buffer[i] == frame.start) return piece(into, i, Verdict::too_short);
        const bool fits = i + 1 == frame.length ? buffer[i] == frame.end : is_printable(buffer[i]);
        if (!fits) return piece(into, i, Verdict::bad_structure);
    }
    if (buffer.size() < frame.length) return 0;
    return std::nullopt;
}

std::optional<std::size_t> rejected(std::string_view buffer, const EndedFrame& frame, Frame& into) {
    const auto in_body = [&](char character) { return belongs_to_body(character, frame); };
    const std::size_t longest_run = 2 * frame.length();
    const std::string_view front = buffer.substr(0, longest_run);
    const auto run = static_cast<std::size_t>(std::ranges::find_if_not(front, in_body) - front.begin());
    if (run == 0) {
        const auto start = std::ranges::find_if(buffer, in_body);
        return piece(into, static_cast<std::size_t>(start - buffer.begin()), Verdict::no_start);
    }
    if (run == longest_run) return piece(into, run, Verdict::bad_structure);
    if (run == buffer.size()) return 0;
    const auto at = [&](std::size_t i) { return frame.ignores_bit_7 ? without_bit_7(buffer[i]) : buffer[i]; };
    if (run != frame.body)
        return piece(into, run,
                     run < frame.body && at(run) == frame.end.front() ? Verdict::too_short
                                                                      : Verdict::bad_structure);
    for (std::size_t i = 0; i < frame.end.size(); ++i) {
        if (run + i == buffer.size()) return 0;
        if (at(run + i) != frame.end[i]) return piece(into, run + i, Verdict::bad_structure);
    }
    return std::nullopt;
}

std::size_t passed_over(Frame& into, std::string_view buffer, std::size_t length, char start) {
    return piece(into, std::min(buffer.find(start, 1), length), Verdict::bad_structure);
}

bool has_seven_bits_or_odd_parity(std::string_view bytes) {
    const auto bits = [](char byte) { return static_cast<unsigned char>(byte); };
    return std::ranges::all_of(bytes, [&](char byte) { return bits(byte) < 0x80; }) ||
           std::ranges::all_of(bytes, [&](char byte) { return std::popcount(bits(byte)) % 2 == 1; });
}

std::optional<PlainNumber> plain_number(std::string_view text, bool bare_point) {
    const bool negative = text.starts_with('-');
    if (negative) text.remove_prefix(1);
    if (text.empty() || text.size() > 16 || !is_digit(text.back())) return std::nullopt;
    if (!is_digit(text.front()) && !bare_point) return std::nullopt;
    const std::size_t point = text.find('.');
    PlainNumber number;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (i == point) continue;
        if (!is_digit(text[i])) return std::nullopt;
        number.counts = 10 * number.counts + (text[i] - '0');
    }
    if (point != std::string_view::npos) number.decimals = static_cast<int>(text.size() - point - 1);
    if (negative) number.counts = -number.counts;
    return number;
}

double scaled(long long counts, int power) {
    // These powers are exact, and one product or quotient of exact numbers is rounded once.
    static constexpr std::array<double, 23> powers{1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                   1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                   1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
    const auto exact = static_cast<double>(counts);
    return power < 0 ? exact / powers.at(static_cast<std::size_t>(-power))
                     : exact * powers.at(static_cast<std::size_t>(power));
}

DecodedReading& add_number(Frame& into, Quantity quantity, long long counts, int power,
                           const MeterSetting& setting) {
    DecodedReading& decoded = into.readings.emplace_back(quantity, setting);
    decoded.resolution = scaled(1, power);
    decoded.reading.value = scaled(counts, power);
    return decoded;
}

DecodedReading& add_out_of_range(Frame& into, Quantity quantity, State state, const MeterSetting& setting) {
    DecodedReading& decoded = into.readings.emplace_back(quantity, setting);
    decoded.reading.state = state;
    return decoded;
}

DecodedReading& add_beyond_range(Frame& into, Quantity quantity, bool negative, long long counts_at_end,
                                 int power, const MeterSetting& setting) {
    const bool below = negative && quantity == Quantity::dc_voltage;
    DecodedReading& beyond =
        add_out_of_range(into, quantity, below ? State::under_range : State::over_range, setting);
    beyond.reading.limit = scaled(below ? -counts_at_end : counts_at_end, power);
    return beyond;
}

void to_celsius(DecodedReading& decoded) {
    if (decoded.reading.value) decoded.reading.value = (*decoded.reading.value - 32.0) * 5.0 / 9.0;
    decoded.resolution *= 5.0 / 9.0;
}

} // namespace coilward
