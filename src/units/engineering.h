#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace coilward {

/// "6.112 kΩ" for 6112 and "ohm": a number for people, with an SI prefix and `digits` significant digits.
/// Units are written as in documents ("ohm", "H", "F", "Hz", "V", "degC", "1"); ohm is shown as Ω, degC as
/// °C, "1" as nothing. What is not finite is shown as words, and what no prefix reaches as "1.000e18 Ω".
std::string engineering(double value, std::string_view unit, int digits = 4);

/// "1 kHz", "120 Hz", "2.5 µF": as many digits as the number has and no more, for what was set rather than
/// measured.
std::string engineering_shortest(double value, std::string_view unit);

/// Number and uncertainty with one prefix and matching digits: "6.112(9) kΩ" is written "6.112 ± 0.009 kΩ".
/// The uncertainty has two digits where its first three lie in 100 to 354 and one where they lie in 355 to
/// 949; from 950 it is rounded up to 1000 and keeps two (rule of the Particle Data Group, Review of Particle
/// Physics, 5.3).
std::string engineering_with_uncertainty(double value, double standard_uncertainty, std::string_view unit);

/// A range with one prefix: "5.72 to 6.63 kΩ", or two where its ends are decades apart: "912 Ω to 7.16 MΩ".
/// `low` and `high` in the unit, each with so many significant digits.
std::string engineering_range(double low, double high, std::string_view unit, int digits = 3);

/// Reads what a person types: "6.11k", "6k11", "2.3 H", "46 pF", "1e3", "6,11 kohm". The unit, where it is
/// written, must be `unit`. A comma is a decimal point, never a separator of thousands; "K" is kilo, "u"
/// micro. Nothing where the text is no such number.
std::optional<double> parse_engineering(std::string_view text, std::string_view unit);

} // namespace coilward
