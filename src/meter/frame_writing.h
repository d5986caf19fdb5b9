#pragma once

#include "meter/decoded_reading.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>

/// The other direction of frame_pieces.h: what a simulated meter needs to put its display into a frame.
namespace coilward {

/// What is on a meter's displays: a value in SI units for each quantity of its setup, in order, or nothing
/// where it is beyond the range.
using ShownValues = std::span<const std::optional<double>>;

/// A number as a display shows it: counts × 10^power in its SI unit.
struct ShownNumber {
    long long counts = 0; ///< with their sign
    int power = 0;        ///< of ten
};

/// The value on a display of so many counts, at the lowest of these powers of ten at which it fits; nothing
/// where it fits at none.
std::optional<ShownNumber> shown_number(std::optional<double> value, int lowest_power, int highest_power,
                                        long long most_counts);

/// "0735": the magnitude of the counts in so many digits.
std::string in_digits(long long counts, int digits);

/// "-12.50": so many decimals.
std::string with_point(long long counts, int decimals);

/// The text filled up with blanks to its width.
std::string blanks_before(std::string_view text, std::size_t width);

/// The same with the blanks behind it.
std::string blanks_behind(std::string_view text, std::size_t width);

/// Four half bytes in two bytes, as 25.3 in tenths is 02 53.
std::string in_half_bytes(long long counts);

/// Two bytes, the high one first.
std::string in_two_bytes(long long counts);

/// The lowest eight bits.
char byte_of(unsigned bits);

/// The quantity at that place in the setting, from 0. Throws std::out_of_range where it has fewer.
Quantity quantity_at(const MeterSetting&, std::size_t place);

} // namespace coilward
