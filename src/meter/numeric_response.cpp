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
constexpr std::size_t largest_exact_power = exact_powers.size() - 1;

/// 1, 0.1, 0.01, ...: rounded once, as 1e-5 is.
constexpr auto inverse_powers = [] {
    std::array<double, exact_powers.size()> inverse{};
    for (std::size_t i = 0; i < inverse.size(); ++i)
        inverse[i] = 1.0 / exact_powers[i];
    return inverse;
}();
constexpr std::size_t most_exact_digits = std::numeric_limits<double>::digits10;

bool is_digit(char character) {
    return character >= '0' && character <= '9';
}

bool is_sign(char character) {
    return character == '+' || character == '-';
}

/// The marks of a sign.
std::uint64_t sign_marks(char sign) {
    return NumberLook::sign | (sign == '-' ? NumberLook::minus : NumberLook::plus);
}

/// Takes the digits from `at` on into the number; gives the place behind them. Digits that do not fit are
/// told by their count, which is quicker than looking at each.
std::size_t take_digits(std::string_view text, std::size_t at, std::uint64_t& digits) {
    for (; at < text.size(); ++at) {
        const unsigned digit = static_cast<unsigned char>(text[at]) - static_cast<unsigned>('0');
        if (digit > 9) break;
        digits = digits * 10 + digit;
    }
    return at;
}

/// "E+01" from `at` on; gives the place behind it. An E that no digits follow is not part of the number.
std::size_t take_exponent(std::string_view text, std::size_t at, NumberText& number) {
    if (at >= text.size() || (text[at] != 'E' && text[at] != 'e')) return at;
    std::uint64_t marks = text[at] == 'E' ? NumberLook::capital_e : NumberLook::small_e;
    std::size_t first = at + 1;
    const bool negative = first < text.size() && text[first] == '-';
    if (first < text.size() && is_sign(text[first])) {
        marks |= negative ? NumberLook::exponent_sign | NumberLook::exponent_minus
                          : NumberLook::exponent_sign | NumberLook::exponent_plus;
        ++first;
    }
    constexpr std::size_t most_digits = 3;
    int exponent = 0;
    std::size_t end = first;
    for (; end < text.size() && is_digit(text[end]) && end - first <= most_digits; ++end)
        exponent = exponent * 10 + (text[end] - '0');
    if (end == first || end - first > most_digits) return at;
    number.exponent += negative ? -exponent : exponent;
    number.look.word |= marks | NumberLook::any_exponent;
    number.look.count(NumberLook::exponent, end - first);
    return end;
}

double power_of_ten(int exponent) {
    const auto size = static_cast<std::size_t>(std::abs(exponent));
    if (size > largest_exact_power) return std::pow(10.0, exponent);
    return exponent < 0 ? inverse_powers[size] : exact_powers[size];
}

/// For digits or powers that a double does not hold exactly.
std::optional<double> converted(const NumberText& number, int exponent) {
    std::string plain;
    for (const char character : number.written.substr(0, number.written.find_first_of("eE")))
        if (is_digit(character)) plain += character;
    plain += 'e';
    plain += std::to_string(exponent);
    double value = 0.0;
    const char* end = plain.data() + plain.size();
    const auto [stop, error] = std::from_chars(plain.data(), end, value);
    if (error != std::errc{} || stop != end || !std::isfinite(value)) return std::nullopt;
    return value;
}

/// Of a value that may be none and a last digit that may be nothing, as in "0.0E+337".
std::optional<ScaledNumber> scaled_by_conversion(const NumberText& number, int exponent) {
    const auto magnitude = converted(number, exponent);
    const double resolution = power_of_ten(exponent);
    if (!magnitude || !std::isfinite(resolution) || !(resolution > 0.0)) return std::nullopt;
    return ScaledNumber{number.is_negative() ? -*magnitude : *magnitude, resolution};
}

} // namespace

NumericResponse::Form NumberText::form() const {
    if (look.has(NumberLook::any_exponent)) return NumericResponse::Form::nr3;
    return look.has(NumberLook::any_point) ? NumericResponse::Form::nr2 : NumericResponse::Form::nr1;
}

NumberText number_at_front(std::string_view text, bool comma_too) {
    NumberText number;
    take_number_at_front(text, comma_too, number);
    return number;
}

void take_number_at_front(std::string_view text, bool comma_too, NumberText& number) {
    number.exponent = 0;
    number.digits = 0;
    NumberLook& look = number.look;
    look.word = 0;
    std::size_t first = 0;
    if (!text.empty() && is_sign(text[0])) {
        look.word = sign_marks(text[0]);
        first = 1;
    }
    std::size_t end = take_digits(text, first, number.digits);
    look.count(NumberLook::whole, end - first);
    std::size_t digits = end - first;
    bool is_number = digits > 0;
    if (is_number && end < text.size() && (text[end] == '.' || (comma_too && text[end] == ','))) {
        look.word |= NumberLook::any_point;
        look.word |= text[end] == '.' ? NumberLook::point : NumberLook::other_point;
        first = end + 1;
        end = take_digits(text, first, number.digits);
        is_number = end > first;
        digits += end - first;
        look.count(NumberLook::decimals, end - first);
        number.exponent = -static_cast<int>(end - first);
        end = take_exponent(text, end, number);
    }
    if (!is_number) {
        number = {};
        return;
    }
    number.digits_fit = digits <= most_exact_digits;
    number.written = text.substr(0, end);
}

std::optional<ScaledNumber> scaled(const NumberText& number, int power) {
    const int exponent = number.exponent + power;
    const auto size = static_cast<std::size_t>(std::abs(exponent));
    if (!number.digits_fit || size > largest_exact_power) return scaled_by_conversion(number, exponent);
    // Both factors exact: one product or quotient is rounded once, as the standard conversion is.
    const auto digits = static_cast<double>(static_cast<std::int64_t>(number.digits));
    const double counts = number.is_negative() ? -digits : digits;
    if (exponent < 0) return ScaledNumber{counts / exact_powers[size], inverse_powers[size]};
    return ScaledNumber{counts * exact_powers[size], exact_powers[size]};
}

std::optional<NumericResponse> numeric_response(std::string_view text, int power) {
    const NumberText number = number_at_front(text);
    if (number.written.empty() || number.written.size() != text.size()) return std::nullopt;
    const auto read = scaled(number, power);
    if (!read) return std::nullopt;
    return NumericResponse{.value = read->value,
                           .resolution = read->resolution,
                           .form = number.form(),
                           .has_sign = number.has_sign()};
}

std::size_t numeric_response_length(std::string_view text) {
    return number_at_front(text).written.size();
}

} // namespace coilward
