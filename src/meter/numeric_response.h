#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace coilward {

/// A number as an instrument sends it.
struct NumericResponse {
    enum class Form {
        nr1, ///< 12, -3
        nr2, ///< 12.5
        nr3, ///< +1.25E+01
    };
    double value = 0.0;
    double resolution = 0.0; ///< one step of its last digit
    Form form = Form::nr1;
    bool has_sign = false;
};

/// How a number is written: which marks are in it, and how many digits stand at each of its places.
struct NumberLook {
    enum Mark : std::uint32_t {
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
    };

    std::uint32_t marks = 0;
    int whole = 0;
    int decimals = 0;
    int exponent_digits = 0;

    int digits() const { return whole + decimals; } ///< without the exponent
};

/// Where a number stands at the front of a text, and what its digits are; not yet scaled.
struct NumberText {
    std::string_view written; ///< its characters; empty: there is no number
    NumericResponse::Form form = NumericResponse::Form::nr1;
    bool negative = false;
    bool digits_fit = true;   ///< in the 53 bits of a double
    int exponent = 0;         ///< of ten, of the last digit
    std::uint64_t digits = 0; ///< without the exponent; meaningless where they do not fit
    NumberLook look;

    bool has_sign() const { return (look.marks & NumberLook::sign) != 0; }
};

/// The number at the front of the text, the longest that can be read, by the response grammar of IEEE 488.2
/// (NR1, NR2, NR3): digits on both sides of a point, an exponent only after a point; its sign may be absent,
/// as instruments write it ("9.9E37"). A number that lost its beginning, as "345E+00", is therefore none.
/// Some loggers write a comma for the point.
NumberText number_at_front(std::string_view text, char point = '.');

struct ScaledNumber {
    double value;
    double resolution; ///< one step of its last digit
};

/// Its value times 10^`power`, rounded once. Nothing where that is no finite number, or the step of
/// its last digit is none above zero.
std::optional<ScaledNumber> scaled(const NumberText&, int power = 0);

/// Reads the whole text. Nothing where it is not one number.
std::optional<NumericResponse> numeric_response(std::string_view text, int power = 0);

/// How many of the first characters are a number; 0 where there is none.
std::size_t numeric_response_length(std::string_view text);

} // namespace coilward
