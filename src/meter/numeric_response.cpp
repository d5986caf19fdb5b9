#include "meter/numeric_response.h"

#include <charconv>
#include <cmath>
#include <string>

#include <fmt/format.h>

namespace coilward {
namespace {

bool is_digit(char character) {
    return character >= '0' && character <= '9';
}

bool is_sign(char character) {
    return character == '+' || character == '-';
}

std::size_t digits_at(std::string_view text, std::size_t from) {
    std::size_t end = from;
    while (end < text.size() && is_digit(text[end]))
        ++end;
    return end - from;
}

/// Where the parts of a number lie.
struct Parts {
    std::size_t length = 0; ///< of all; 0: no number
    std::size_t decimals = 0;
    std::size_t exponent_at = 0; ///< first character after the E; 0: no exponent
    bool sign = false;
};

/// "E+01" behind a fraction; an E that no digits follow is not part of the number.
void take_exponent(std::string_view text, Parts& parts) {
    std::size_t at = parts.length;
    if (at >= text.size() || (text[at] != 'E' && text[at] != 'e')) return;
    ++at;
    const std::size_t exponent_at = at;
    if (at < text.size() && is_sign(text[at])) ++at;
    const std::size_t digits = digits_at(text, at);
    if (digits == 0 || digits > 3) return;
    parts.exponent_at = exponent_at;
    parts.length = at + digits;
}

Parts parts_of(std::string_view text) {
    Parts parts;
    parts.sign = !text.empty() && is_sign(text[0]);
    const std::size_t first = parts.sign ? 1 : 0;
    const std::size_t whole = digits_at(text, first);
    if (whole == 0) return {};
    parts.length = first + whole;
    if (parts.length >= text.size() || text[parts.length] != '.') return parts;
    parts.decimals = digits_at(text, parts.length + 1);
    if (parts.decimals == 0) return parts;
    parts.length += 1 + parts.decimals;
    take_exponent(text, parts);
    return parts;
}

int exponent_of(std::string_view text) {
    if (text.starts_with('+')) text.remove_prefix(1); // from_chars takes no plus sign
    int exponent = 0;
    std::from_chars(text.data(), text.data() + text.size(), exponent);
    return exponent;
}

} // namespace

std::size_t numeric_response_length(std::string_view text) {
    return parts_of(text).length;
}

std::optional<NumericResponse> numeric_response(std::string_view text, int power) {
    const Parts parts = parts_of(text);
    if (parts.length == 0 || parts.length != text.size()) return std::nullopt;
    const bool has_exponent = parts.exponent_at > 0;
    const int exponent = power + (has_exponent ? exponent_of(text.substr(parts.exponent_at)) : 0);
    const std::size_t mantissa_end = has_exponent ? parts.exponent_at - 1 : text.size();
    const std::string_view mantissa = text.substr(0, mantissa_end).substr(text.starts_with('+') ? 1 : 0);
    const std::string plain = fmt::format("{}e{}", mantissa, exponent);
    NumericResponse number{.has_sign = parts.sign};
    const char* end = plain.data() + plain.size();
    const auto [stop, error] = std::from_chars(plain.data(), end, number.value);
    if (error != std::errc{} || stop != end || !std::isfinite(number.value)) return std::nullopt;
    number.resolution = std::pow(10.0, exponent - static_cast<int>(parts.decimals));
    if (parts.decimals > 0)
        number.form = has_exponent ? NumericResponse::Form::nr3 : NumericResponse::Form::nr2;
    return number;
}

} // namespace coilward
