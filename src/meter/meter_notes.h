#pragma once

#include <string>
#include <string_view>

/// What a driver says to the person beside a reading or in place of one. Line and frame drivers use the same
/// words.
namespace coilward::meter_notes {

inline constexpr std::string_view low_battery = "low battery: this meter then reads wrong";
inline constexpr std::string_view beyond_display = "more counts than its display can show";
inline constexpr std::string_view held = "held value";
inline constexpr std::string_view relative = "relative to a reference";
inline constexpr std::string_view extreme = "minimum or maximum";

/// "the meter is on volts AC": it is set to what this bench does not measure.
inline std::string is_on(std::string_view what) {
    return "the meter is on " + std::string(what);
}

} // namespace coilward::meter_notes
