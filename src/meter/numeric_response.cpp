#include "meter/numeric_response.h"

#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <string>

namespace coilward {
namespace {

/// Powers of ten that a double holds exactly.
constexpr std::array<double, 23> exact_powers{1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                              1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                              1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
constexpr int largest_exact_power = static_cast<int>(exact_powers.size()) - 1;

/// 1, 0.1, 0.01, ...: rounded once, as 1e-5 is.
constexpr auto inverse_powers = [] {
    std::array<double, exact_powers.size()> inverse{};
    for (std::size_t i = 0; i < inverse.size(); ++i)
        inverse[i] = 1.0 / exact_powers[i];
    return inverse;
}();
constexpr auto most_exact_digits = static_cast<std::size_t>(std::numeric_limits<double>::digits10);

bool is_digit(char character) {
    return character >= '0' && character <= '9';
}

bool is_sign(char character) {
    return character == '+' || character == '-';
}

/// Takes the digits from `at` on into the number; how many they are. Digits that do not fit are told by their
/// count, which is quicker than looking at each.
std::size_t take_digits(std::string_view text, std::size_t at, NumberText& number) {
    std::uint64_t digits = number.digits;
    std::size_t end = at;
    for (; end < text.size() && is_digit(text[end]); ++end)
        digits = digits * 10 + static_cast<unsigned>(text[end] - '0');
    number.digits = digits;
    return end - at;
}

/// "E+01" behind a fraction; an E that no digits follow is not part of the number.
void take_exponent(std::string_view text, NumberText& number) {
    std::size_t at = number.length;
    if (at >= text.size() || (text[at] != 'E' && text[at] != 'e')) return;
    ++at;
    const bool negative = at < text.size() && text[at] == '-';
    if (at < text.size() && is_sign(text[at])) ++at;
    const std::size_t first = at;
    int exponent = 0;
    for (; at < text.size() && is_digit(text[at]) && at - first < 4; ++at)
        exponent = exponent * 10 + (text[at] - '0');
    if (at == first || at - first > 3) return;
    number.form = NumericResponse::Form::nr3;
    number.exponent += negative ? -exponent : exponent;
    number.length = at;
}

double power_of_ten(int exponent) {
    if (exponent >= 0 && exponent <= largest_exact_power)
        return exact_powers[static_cast<std::size_t>(exponent)];
    if (exponent < 0 && exponent >= -largest_exact_power)
        return inverse_powers[static_cast<std::size_t>(-exponent)];
    return std::pow(10.0, exponent);
}

/// For digits or powers that a double does not hold exactly.
std::optional<double> converted(const NumberText& number, int exponent) {
    std::string plain;
    for (const char character : number.mantissa)
        if (is_digit(character)) plain += character;
    plain += 'e';
    plain += std::to_string(exponent);
    double value = 0.0;
    const char* end = plain.data() + plain.size();
    const auto [stop, error] = std::from_chars(plain.data(), end, value);
    if (error != std::errc{} || stop != end || !std::isfinite(value)) return std::nullopt;
    return value;
}

/// Both factors exact: one product or quotient is rounded once, as the standard conversion is.
std::optional<double> magnitude_of(const NumberText& number, int exponent) {
    if (!number.digits_fit || std::abs(exponent) > largest_exact_power) return converted(number, exponent);
    const auto digits = static_cast<double>(number.digits);
    const double power = exact_powers[static_cast<std::size_t>(std::abs(exponent))];
    return exponent < 0 ? digits / power : digits * power;
}

} // namespace

NumberText number_at_front(std::string_view text, char point) {
    NumberText number;
    number.has_sign = !text.empty() && is_sign(text[0]);
    number.negative = number.has_sign && text[0] == '-';
    const std::size_t first = number.has_sign ? 1 : 0;
    const std::size_t whole = take_digits(text, first, number);
    if (whole == 0) return {};
    number.length = first + whole;
    if (number.length < text.size() && text[number.length] == point) {
        const std::size_t decimals = take_digits(text, number.length + 1, number);
        if (decimals == 0) return {};
        number.form = NumericResponse::Form::nr2;
        number.length += 1 + decimals;
        number.decimals = static_cast<int>(decimals);
        number.exponent = -number.decimals;
    }
    number.mantissa = text.substr(first, number.length - first);
    number.digits_fit = whole + static_cast<std::size_t>(number.decimals) <= most_exact_digits;
    if (number.decimals > 0) take_exponent(text, number);
    return number;
}

std::optional<NumericResponse> scaled(const NumberText& number, int power) {
    const int exponent = number.exponent + power;
    const auto magnitude = magnitude_of(number, exponent);
    if (!magnitude || !std::isfinite(*magnitude)) return std::nullopt;
    const double resolution = power_of_ten(exponent);
    if (!std::isfinite(resolution) || !(resolution > 0.0)) return std::nullopt; // as of "0.0E+337"
    return NumericResponse{.value = number.negative ? -*magnitude : *magnitude,
                           .resolution = resolution,
                           .form = number.form,
                           .has_sign = number.has_sign};
}

std::optional<NumericResponse> numeric_response(std::string_view text, int power) {
    const NumberText number = number_at_front(text);
    if (number.length == 0 || number.length != text.size()) return std::nullopt;
    return scaled(number, power);
}

std::size_t numeric_response_length(std::string_view text) {
    return number_at_front(text).length;
}

} // namespace coilward
