#pragma once

#include "meter/frame_pieces.h"
#include "meter/frame_writing.h"

#include <algorithm>
#include <array>
#include <optional>
#include <stdexcept>

/// What both versions of the 16-character frames share: their ends and their unit codes.
namespace coilward::stx16 {

inline constexpr StartedFrame frame{.length = 16, .start = '\x02', .end = '\x0D'};

struct Unit {
    std::string_view code;
    Quantity quantity;
    int power; ///< of ten, to the SI unit
    bool fahrenheit = false;
};

/// Extech protocol sheets. Of the volts only the direct ones.
inline constexpr std::array<Unit, 13> units{{
    {"01", Quantity::temperature, 0},
    {"02", Quantity::temperature, 0, true},
    {"18", Quantity::dc_voltage, -3},
    {"34", Quantity::dc_voltage, 0},
    {"38", Quantity::dc_resistance, 0},
    {"39", Quantity::dc_resistance, 3},
    {"40", Quantity::dc_resistance, 6},
    {"68", Quantity::inductance, -6},
    {"41", Quantity::inductance, -3},
    {"42", Quantity::inductance, 0},
    {"A4", Quantity::capacitance, -12},
    {"43", Quantity::capacitance, -9},
    {"44", Quantity::capacitance, -6},
}};

/// What a meter on one of these codes is on.
struct OtherUnit {
    std::string_view code;
    std::string_view function;
};

inline constexpr std::array<OtherUnit, 14> other_units{{
    {"04", "relative humidity"},
    {"35", "microamperes"},
    {"36", "amperes"},
    {"37", "milliamperes"},
    {"46", "the diode test"},
    {"31", "hertz"},
    {"33", "kilohertz"},
    {"67", "megahertz"},
    {"49", "millivolts AC"},
    {"50", "volts AC"},
    {"51", "microamperes AC"},
    {"52", "amperes AC"},
    {"53", "milliamperes AC"},
    {"17", "decibels"},
}};

/// The number on a display: digits of the frame with so many decimals.
inline std::size_t value(std::string_view code, std::string_view digits, char decimals, bool negative,
                         const MeterSetting& setting, Frame& into) {
    const auto unit = std::ranges::find(units, code, &Unit::code);
    if (unit == units.end()) {
        const auto other = std::ranges::find(other_units, code, &OtherUnit::code);
        return other == other_units.end()
                   ? piece(into, frame.length, Verdict::senseless, "not a quantity of this bench")
                   : other_function(into, frame.length, other->function);
    }
    if (!std::ranges::all_of(digits, is_digit))
        return piece(into, frame.length, Verdict::senseless, "the meter shows that it is out of its range");
    if (needs_frequency(unit->quantity) && !setting.frequency_hz)
        return piece(into, frame.length, Verdict::senseless,
                     "at which frequency was it measured? the frame does not say");
    const long long counts = plain_number(digits)->counts;
    DecodedReading& decoded = add_number(into, unit->quantity, negative ? -counts : counts,
                                         unit->power - (decimals - '0'), setting);
    if (unit->fahrenheit) to_celsius(decoded);
    return piece(into, frame.length, Verdict::reading);
}

inline constexpr int most_decimals = 3;

/// The number in the first unit of the quantity that can show it; nothing beyond the last.
inline std::optional<ShownNumber> shown(std::optional<double> value, Quantity quantity,
                                        long long most_counts) {
    for (const Unit& unit : units)
        if (unit.quantity == quantity && !unit.fahrenheit)
            if (const auto number = shown_number(value, unit.power - most_decimals, unit.power, most_counts))
                return number;
    return std::nullopt;
}

/// The unit in which such a number is shown; the quantity's highest where there is none. Throws
/// std::invalid_argument for a quantity that the meter does not measure.
inline const Unit& unit_of(Quantity quantity, const std::optional<ShownNumber>& number) {
    const Unit* found = nullptr;
    for (const Unit& unit : units) {
        if (unit.quantity != quantity || unit.fahrenheit) continue;
        found = &unit;
        if (number && number->power <= unit.power) break;
    }
    if (!found) throw std::invalid_argument("no unit of this meter shows the quantity");
    return *found;
}

inline char decimals_of(const ShownNumber& number, Quantity quantity) {
    return static_cast<char>('0' + unit_of(quantity, number).power - number.power);
}

} // namespace coilward::stx16
