#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace coilward {

/// A number as an instrument sends it.
struct NumericResponse {
    /// The three forms of IEEE 488.2.
    enum class Form {
        nr1, ///< 12, -3
        nr2, ///< 12.5
        nr3, ///< +1.25E+01
    };
    double value = 0.0;
    double resolution = 0.0; ///< one step of its last digit
    Form form = Form::nr1;   ///< in which it is written
    bool has_sign = false;   ///< plus or minus
};

/// How a number is written: which marks are in it, and how many digits stand at each of its places. In one
/// word, so that it is compared at once.
struct NumberLook {
    /// Marks, a bit each.
    enum Mark : std::uint64_t {
        plus = 1U << 0U,
        minus = 1U << 1U,
        sign = 1U << 2U, ///< with either
        point = 1U << 3U,
        other_point = 1U << 4U, ///< a comma
        capital_e = 1U << 5U,
        small_e = 1U << 6U,
        exponent_plus = 1U << 7U,
        exponent_minus = 1U << 8U,
        exponent_sign = 1U << 9U, ///< with either
        any_point = 1U << 10U,
        any_exponent = 1U << 11U,
    };

    /// Where the number of digits at a place stands, in 16 bits: no line is so long that it would not fit.
    enum Place : unsigned { whole = 16, decimals = 32, exponent = 48 };

    std::uint64_t word = 0; ///< marks and counts together

    /// Whether the mark is there.
    bool has(Mark mark) const { return (word & mark) != 0; }

    /// Puts that number of digits to its place, which has none yet.
    void count(Place place, std::size_t digits) { word |= static_cast<std::uint64_t>(digits) << place; }

    /// How many digits stand at the place.
    int counted(Place place) const { return static_cast<int>(word >> place & 0xFFFFU); }

    int digits() const { return counted(whole) + counted(decimals); } ///< without the exponent
};

/// Where a number stands at the front of a text, and what its digits are; not yet scaled.
struct NumberText {
    std::string_view written; ///< its characters; empty: there is no number
    bool digits_fit = true;   ///< in the 53 bits of a double
    int exponent = 0;         ///< of ten, of the last digit
    std::uint64_t digits = 0; ///< without the exponent; meaningless where they do not fit
    NumberLook look;          ///< of all its characters

    /// Plus or minus.
    bool has_sign() const { return look.has(NumberLook::sign); }

    /// A minus.
    bool is_negative() const { return look.has(NumberLook::minus); }

    /// By its point and its exponent.
    NumericResponse::Form form() const;
};

/// The number at the front of the text, the longest that can be read, by the response grammar of IEEE 488.2
/// (NR1, NR2, NR3): digits on both sides of a point, an exponent only after a point; its sign may be absent,
/// as instruments write it ("9.9E37"). A number that lost its beginning, as "345E+00", is therefore none.
/// Some loggers write a comma for the point: then a comma is one too.
NumberText number_at_front(std::string_view text, bool comma_too = false);

/// The same into an object that is there already, which a hot path has.
void take_number_at_front(std::string_view text, bool comma_too, NumberText& number);

/// A number in the unit that was wanted.
struct ScaledNumber {
    double value;
    double resolution; ///< one step of its last digit
};

/// Its value times 10^`power`, rounded once. Nothing where that is no finite number, or the step of
/// its last digit is none above zero.
std::optional<ScaledNumber> scaled(const NumberText&, int power = 0);

/// Reads the whole text, times 10^`power`. Nothing where it is not one number.
std::optional<NumericResponse> numeric_response(std::string_view text, int power = 0);

/// How many of the first characters are a number; 0 where there is none.
std::size_t numeric_response_length(std::string_view text);

} // namespace coilward
