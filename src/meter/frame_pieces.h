#pragma once

#include "meter/frame.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

/// What the frame protocols of drivers/ have in common: pieces of a stream, and plain numbers in them.
namespace coilward {

/// For thermometers with two probes.
inline constexpr std::string_view difference_note = "a difference of two probes";

/// 0 to 9 of ASCII.
constexpr bool is_digit(char character) {
    return character >= '0' && character <= '9';
}

/// A visible character of ASCII, or a blank.
constexpr bool is_printable(char character) {
    return character >= ' ' && character <= '~';
}

/// The seven bits that a parity bit leaves.
constexpr char without_bit_7(char character) {
    return static_cast<char>(static_cast<unsigned char>(character) & 0x7FU);
}

/// The bits of a byte of a binary frame.
inline unsigned byte_at(std::string_view frame, std::size_t place) {
    return static_cast<unsigned char>(frame[place]);
}

/// The text without blanks at its ends.
std::string_view without_blanks(std::string_view text);

/// The first `used` bytes as one piece with this verdict, beside the readings that are in it; gives `used`.
inline std::size_t piece(Frame& into, std::size_t used, Verdict verdict, std::string_view note = {}) {
    into.verdict = verdict;
    if (!note.empty()) into.note = note;
    return used;
}

/// A frame that is well formed but shows something that this bench does not measure: "the meter is on ...".
std::size_t other_function(Frame& into, std::size_t used, std::string_view function);

/// A frame of one length that begins with a character of its own: start, printable characters, end.
struct StartedFrame {
    std::size_t length; ///< all of it, bytes
    char start;
    char end;
};

/// A frame of one length that only its end marks: so many characters of one kind, then the end.
struct EndedFrame {
    std::size_t body; ///< characters before the end
    std::string_view end;
    char lowest = ' ';          ///< of the characters before the end
    char highest = '~';         ///< likewise
    bool ignores_bit_7 = false; ///< it may be a parity bit, which is checked later

    /// All of it, bytes.
    std::size_t length() const { return body + end.size(); }
};

/// What is at the front of the buffer in place of a whole frame, or that more bytes are needed; nothing where
/// a whole frame is there.
std::optional<std::size_t> rejected(std::string_view buffer, const StartedFrame&, Frame& into);

/// The same. A run that is too long or too short is dropped whole: a part of it could pass for a frame.
std::optional<std::size_t> rejected(std::string_view buffer, const EndedFrame&, Frame& into);

/// What to make of a binary frame of this length that turned out to be none: its start may stand anywhere in
/// it, so that the next one may be the true one.
std::size_t passed_over(Frame& into, std::string_view buffer, std::size_t length, char start);

/// True where all bytes have seven bits, or all have odd parity in their eighth.
bool has_seven_bits_or_odd_parity(std::string_view bytes);

/// A whole frame of characters with seven bits, whose parity stands in their eighth where they are read with
/// eight: hands the part before its end to `judge`, without the parity.
template <const EndedFrame& frame, typename Judge>
std::size_t scan_with_parity(std::string_view buffer, Frame& into, Judge judge) {
    if (const auto no_frame = rejected(buffer, frame, into)) return *no_frame;
    if (!has_seven_bits_or_odd_parity(buffer.substr(0, frame.length())))
        return piece(into, frame.length(), Verdict::bad_check);
    std::array<char, frame.body> body{};
    std::ranges::transform(buffer.substr(0, frame.body), body.begin(), without_bit_7);
    return judge(std::string_view(body.data(), body.size()));
}

/// A number without exponent: counts of its last digit, and where its point stands.
struct PlainNumber {
    long long counts = 0; ///< of the last digit, with their sign
    int decimals = 0;     ///< digits behind the point
};

/// Digits with at most one point among them, after an optional minus: "-12.5", "0470"; a point may come first
/// where `bare_point` says so, never last. Nothing for any other text, or for more than 15 digits.
std::optional<PlainNumber> plain_number(std::string_view text, bool bare_point = false);

/// counts × 10^power, rounded once as its decimal text would be; for |power| <= 22 and counts below 2^53.
double scaled(long long counts, int power);

/// Adds a number of the quantity: counts × 10^power in its SI unit.
DecodedReading& add_number(Frame& into, Quantity, long long counts, int power, const MeterSetting&);

/// Adds that the display is beyond an end of its range.
DecodedReading& add_out_of_range(Frame& into, Quantity, State, const MeterSetting&);

/// The same with the end of the range, counts × 10^power in the SI unit; a negative voltage is beyond the
/// lower end.
DecodedReading& add_beyond_range(Frame& into, Quantity, bool negative, long long counts_at_end, int power,
                                 const MeterSetting&);

/// From degrees Fahrenheit, number and resolution.
void to_celsius(DecodedReading&);

} // namespace coilward
