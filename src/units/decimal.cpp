#include "units/decimal.h"

#include <array>
#include <charconv>
#include <cmath>
#include <string_view>

#include <fmt/format.h>

namespace coilward {
namespace {

/// Takes "d.ddde±xx" apart.
Decimal from_scientific(std::string_view text, bool negative) {
    const auto e = text.find('e');
    int exponent = 0;
    const auto exponent_text = text.substr(text[e + 1] == '+' ? e + 2 : e + 1);
    std::from_chars(exponent_text.data(), exponent_text.data() + exponent_text.size(), exponent);

    Decimal decimal{negative, std::string(text.substr(0, 1)), exponent};
    if (text[1] == '.') decimal.digits += text.substr(2, e - 2);
    decimal.last = exponent - static_cast<int>(decimal.digits.size()) + 1;
    return decimal;
}

} // namespace

Decimal to_significant(double value, int significant_digits) {
    if (value == 0.0) return {};
    return from_scientific(fmt::format("{:.{}e}", std::abs(value), significant_digits - 1), value < 0.0);
}

Decimal to_place(double value, int place) {
    // Dividing by 10^-place would lose the last bit of a decimal fraction; multiplying by its inverse does
    // not.
    const double magnitude = std::abs(value);
    const double steps = place < 0 ? magnitude * std::pow(10.0, -place) : magnitude / std::pow(10.0, place);
    Decimal decimal{value < 0.0, fmt::format("{:.0f}", std::round(steps)), place};
    if (decimal.is_zero()) decimal.negative = false;
    return decimal;
}

Decimal to_shortest(double value) {
    if (value == 0.0) return {};
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::abs(value),
                                   std::chars_format::scientific);
    return from_scientific({buffer.data(), end.ptr}, value < 0.0);
}

std::string written(const Decimal& decimal, int power) {
    const auto* sign = decimal.negative ? "-" : "";
    const int decimals = power - decimal.last;
    if (decimals <= 0) {
        const auto zeros = decimal.is_zero() ? 0u : static_cast<std::size_t>(-decimals);
        return fmt::format("{}{}{}", sign, decimal.digits, std::string(zeros, '0'));
    }
    // At least one digit stays before the point.
    const auto padded = fmt::format("{:0>{}}", decimal.digits, decimals + 1);
    const auto point = padded.size() - static_cast<std::size_t>(decimals);
    return fmt::format("{}{}.{}", sign, padded.substr(0, point), padded.substr(point));
}

std::string written_scientific(const Decimal& decimal) {
    return written(decimal, decimal.leading()) + fmt::format("e{}", decimal.leading());
}

} // namespace coilward
