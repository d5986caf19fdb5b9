#pragma once

#include "wire/basis.h"

#include <optional>
#include <string>

/// American wire gauge (AWG) of bare conductors. A gauge is a number from -3 (written 0000) over 0 to 56.
namespace coilward {

/// A mil is a thousandth of an inch.
inline constexpr double metre_per_mil = 25.4e-6;

inline constexpr int largest_awg = -3;  ///< 0000
inline constexpr int smallest_awg = 56; ///< the thinnest

/// A gauge has two legitimate diameters, and their resistances differ: by +2.9 % for 40, -0.5 % for 42, +1.9
/// % for 43 and -2.2 % for 44 AWG (nominal relative to exact). Whoever computes with a gauge must say which.
enum class AwgDiameter {
    exact,   ///< by the formula of ASTM B258
    nominal, ///< rounded to 0.1 mil, from 45 AWG to 0.01 mil, as magnet wire is made and sold (NEMA MW 1000)
};

/// Diameter of the bare conductor. Exact: 5 mil · 92^((36 − n) / 39) (ASTM B258). Throws
/// std::invalid_argument for a gauge that does not exist.
double awg_diameter_m(int awg, AwgDiameter);

/// "0000", "0", "42"; no check that the gauge exists.
std::string awg_name(int awg);

/// Limits of the bare diameter of magnet wire: nominal ± 0.1 mil (27 to 44 AWG) or ± 0.2 mil (24 to 26).
/// Published for 24 to 40, and by the published highest resistance for 42 and 44; 41 and 43 follow the
/// pattern. Nothing for other gauges: thicker ones are not in the source, thinner ones are made to a
/// tolerance of resistance.
std::optional<WireLimits> awg_diameter_limits_m(int awg);

/// Limits of the resistance at 20 °C, in ohm per metre. To 44 AWG those of the diameter limits, with copper
/// of IACS conductivity; from 45 to 48 AWG nominal ± 8 %, of which the highest is published for 46 and 48.
/// Nothing for others.
std::optional<WireLimits> awg_resistance_limits_ohm_per_m(int awg);

} // namespace coilward
