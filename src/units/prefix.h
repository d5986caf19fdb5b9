#pragma once

#include <array>
#include <string_view>

namespace coilward {

/// One SI prefix and its power of ten (SI Brochure, 9th edition, table 7).
struct Prefix {
    int power; ///< of ten
    std::string_view symbol;
};

/// The prefixes that a bench needs, smallest first.
inline constexpr std::array<Prefix, 10> prefixes{{
    {-15, "f"},
    {-12, "p"},
    {-9, "n"},
    {-6, "µ"},
    {-3, "m"},
    {0, ""},
    {3, "k"},
    {6, "M"},
    {9, "G"},
    {12, "T"},
}};

/// False for degC and for pure numbers, which are written without a prefix.
constexpr bool takes_prefix(std::string_view unit) {
    return unit != "degC" && unit != "1" && !unit.empty();
}

/// The unit as people write it: Ω for "ohm", °C for "degC", nothing for "1".
constexpr std::string_view unit_symbol(std::string_view unit) {
    if (unit == "ohm") return "Ω";
    if (unit == "degC") return "°C";
    if (unit == "1") return "";
    return unit;
}

} // namespace coilward
