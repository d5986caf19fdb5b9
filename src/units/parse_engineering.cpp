#include "units/engineering.h"
#include "units/prefix.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::string_view digits = "0123456789";

/// Removes and returns the longest beginning of `text` that consists of `characters`.
std::string_view take_all(std::string_view& text, std::string_view characters) {
    const auto taken = text.substr(0, text.find_first_not_of(characters));
    text.remove_prefix(taken.size());
    return taken;
}

bool take(std::string_view& text, std::string_view word) {
    if (!text.starts_with(word)) return false;
    text.remove_prefix(word.size());
    return true;
}

/// Other spellings of a prefix that people type. The micro sign and the Greek letter look alike.
constexpr std::array<Prefix, 3> prefix_spellings{{{-6, "u"}, {-6, "\u03bc"}, {3, "K"}}};

std::optional<int> take_prefix(std::string_view& text) {
    for (const auto& prefix : prefixes)
        if (!prefix.symbol.empty() && take(text, prefix.symbol)) return prefix.power;
    for (const auto& prefix : prefix_spellings)
        if (take(text, prefix.symbol)) return prefix.power;
    return std::nullopt;
}

/// The ways to write a unit. U+2126 (ohm sign) and U+03A9 (Greek omega) look alike too.
constexpr std::array<std::pair<std::string_view, std::string_view>, 5> unit_spellings{{
    {"ohm", "\u03a9"},
    {"ohm", "\u2126"},
    {"ohm", "Ohm"},
    {"ohm", "R"},
    {"degC", "°C"},
}};

bool is_unit(std::string_view text, std::string_view unit) {
    if (text.empty() || text == unit) return true;
    return std::ranges::any_of(
        unit_spellings, [&](const auto& known) { return known.first == unit && known.second == text; });
}

/// The exponent of "e-3"; 0 where there is none. An "e" without one to three digits is left for the unit to
/// refuse.
int take_exponent(std::string_view& text) {
    if (text.empty() || (text.front() != 'e' && text.front() != 'E')) return 0;
    auto rest = text.substr(1);
    const bool negative = rest.starts_with('-');
    if (negative || rest.starts_with('+')) rest.remove_prefix(1);
    const auto figures = take_all(rest, digits);
    if (figures.empty() || figures.size() > 3) return 0;
    int exponent = 0;
    std::from_chars(figures.data(), figures.data() + figures.size(), exponent);
    text = rest;
    return negative ? -exponent : exponent;
}

/// The prefix or "R" that stands in place of the decimal point, as in 6k11 and 4R7 (IEC 60062).
std::optional<int> take_point_letter(std::string_view& text, std::string_view unit) {
    auto rest = text;
    std::optional<int> power;
    if (takes_prefix(unit)) power = take_prefix(rest);
    if (!power && unit == "ohm" && take(rest, "R")) power = 0;
    if (!power || rest.empty() || digits.find(rest.front()) == std::string_view::npos) return std::nullopt;
    text = rest;
    return power;
}

/// A decimal number as it was typed.
struct Typed {
    bool negative = false;
    std::string_view whole;
    std::string_view fraction;
    int power = 0;
    bool prefix_taken = false;
};

Typed take_number(std::string_view& text, std::string_view unit) {
    Typed typed;
    typed.negative = text.starts_with('-');
    if (typed.negative || text.starts_with('+')) text.remove_prefix(1);
    typed.whole = take_all(text, digits);
    if (const auto power = take_point_letter(text, unit); power && !typed.whole.empty()) {
        typed.fraction = take_all(text, digits);
        typed.power = *power;
        typed.prefix_taken = true;
        return typed;
    }
    if (take(text, ".") || take(text, ",")) typed.fraction = take_all(text, digits);
    typed.power = take_exponent(text);
    return typed;
}

/// The nearest double. One conversion of the whole decimal number, so that "6.11k" is exactly what 6110 is.
std::optional<double> value_of(const Typed& typed) {
    const auto decimal =
        fmt::format("{}{}.{}e{}", typed.negative ? "-" : "", typed.whole.empty() ? "0" : typed.whole,
                    typed.fraction.empty() ? "0" : typed.fraction, typed.power);
    double value = 0.0;
    const auto result = std::from_chars(decimal.data(), decimal.data() + decimal.size(), value);
    if (result.ec != std::errc{}) return std::nullopt;
    return value;
}

} // namespace

std::optional<double> parse_engineering(std::string_view text, std::string_view unit) {
    take_all(text, " \t");
    text = text.substr(0, text.find_last_not_of(" \t\r\n") + 1);
    auto typed = take_number(text, unit);
    if (typed.whole.empty() && typed.fraction.empty()) return std::nullopt;

    take_all(text, " ");
    if (!is_unit(text, unit)) {
        const auto power = takes_prefix(unit) && !typed.prefix_taken ? take_prefix(text) : std::nullopt;
        if (!power || !is_unit(text, unit)) return std::nullopt;
        typed.power += *power;
    }
    return value_of(typed);
}

} // namespace coilward
