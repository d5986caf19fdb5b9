#pragma once

#include <string>

namespace coilward {

/// A number rounded in decimal, so that a carry (999.96 to 1000.0) is already done before a prefix is chosen:
/// `digits` is a whole number whose last digit counts 10^last.
struct Decimal {
    bool negative = false;
    std::string digits = "0";
    int last = 0;

    /// Whether every digit is 0.
    bool is_zero() const { return digits.find_first_not_of('0') == std::string::npos; }

    /// The power of ten of the first digit.
    int leading() const { return last + static_cast<int>(digits.size()) - 1; }
};

/// `value`, which must be finite, to so many significant digits (at least 1). Zero has one digit.
Decimal to_significant(double value, int significant_digits);

/// `value`, which must be finite, to a multiple of 10^place; halves away from zero.
Decimal to_place(double value, int place);

/// The fewest digits that read back as the same double.
Decimal to_shortest(double value);

/// The number divided by 10^power, written out: "6.112" for 6112 and power 3.
std::string written(const Decimal&, int power);

/// "1.000e18": for what no prefix reaches.
std::string written_scientific(const Decimal&);

} // namespace coilward
