#pragma once

#include <array>
#include <limits>
#include <span>
#include <string>
#include <string_view>

/// What a number in a rules file may be at all. Limits are so wide that only a slip of the unit, never an odd
/// coil, falls outside.
namespace coilward {

/// A unit in which the number may have been written by mistake, and its size in the unit that was asked for.
struct MistakenUnit {
    std::string_view name; ///< in words
    double size;
};

/// A unit, and what a number in it can be.
struct Measure {
    std::string_view unit;                    ///< SI, in words; "" for a pure number
    double low;                               ///< 0: zero itself is allowed; `above_zero`: it is not
    double high;                              ///< itself allowed
    std::span<const MistakenUnit> mistakes{}; ///< that are worth naming
};

/// As a lower limit: every number above 0.
inline constexpr double above_zero = std::numeric_limits<double>::min();

/// "ohm from 50 to 200000", "a number from 0 to 1", "hertz, more than 0 and at most 20000".
std::string described(const Measure&);

/// What the numbers of a rules file may be, both ends allowed, and the units in which each is mistaken.
namespace measures {

inline constexpr std::array<MistakenUnit, 3> ohm_mistakes{
    {{"kiloohm", 1e3}, {"megohm", 1e6}, {"milliohm", 1e-3}}};
inline constexpr std::array<MistakenUnit, 2> henry_mistakes{{{"millihenry", 1e-3}, {"microhenry", 1e-6}}};
inline constexpr std::array<MistakenUnit, 3> farad_mistakes{
    {{"picofarad", 1e-12}, {"nanofarad", 1e-9}, {"microfarad", 1e-6}}};
inline constexpr std::array<MistakenUnit, 4> metre_mistakes{
    {{"millimetre", 1e-3}, {"micrometre", 1e-6}, {"centimetre", 1e-2}, {"inch", 0.0254}}};
inline constexpr std::array<MistakenUnit, 1> turn_mistakes{{{"thousands of turns", 1e3}}};

// Coils: a few hundred turns and some 50 ohm in low-impedance ones, 30 kilohm and 15 H in the hottest.
inline constexpr Measure coil_resistance{"ohm", 50.0, 200e3, ohm_mistakes};
inline constexpr Measure inductance{"henry", 0.01, 100.0, henry_mistakes};
inline constexpr Measure capacitance{"farad", 1e-13, 5e-9, farad_mistakes};
inline constexpr Measure turns{"turns", 50.0, 50e3, turn_mistakes};
inline constexpr Measure turn_length{"metre", 0.02, 0.6, metre_mistakes};
inline constexpr Measure bobbin_length{"metre", 0.005, 0.4, metre_mistakes};
inline constexpr Measure bobbin_width{"metre", 0.0005, 0.06, metre_mistakes};
inline constexpr Measure bobbin_height{"metre", 0.0005, 0.05, metre_mistakes};
inline constexpr Measure conductor_diameter{"metre", 10e-6, 500e-6, metre_mistakes};
inline constexpr Measure quality_factor{"", 0.01, 100.0};
inline constexpr Measure test_frequency{"hertz", above_zero, 20e3};

// Pickups.
inline constexpr Measure inductance_per_ohm2{"henry per square ohm", 1e-10, 1e-4};
inline constexpr Measure coupling{"", above_zero, 1.0};

// Faults: from a solder bridge to the insulation of air, from a gap in a wire to a tone capacitor.
inline constexpr Measure fault_resistance{"ohm", 1e-6, 1e16};
inline constexpr Measure fault_capacitance{"farad", 1e-16, 1e-3};
inline constexpr Measure factor{"", 1e-3, 1e3};
inline constexpr Measure share{"", above_zero, 1.0};
inline constexpr Measure position{"", 0.0, 1.0};
inline constexpr Measure log_deviation{"", above_zero, 10.0};
inline constexpr Measure band_weight{"", above_zero, 1.0};
inline constexpr Measure end_weight{"", 0.0, 0.5};
inline constexpr Measure prior{"", above_zero, 1000.0};
inline constexpr Measure probability{"", 0.0, 1.0};
inline constexpr Measure decision{"", 0.5, 1.0};

// The bench.
inline constexpr Measure seconds{"seconds", above_zero, 3600.0};
inline constexpr Measure relative_uncertainty{"", 0.0, 1.0};
inline constexpr Measure absolute_uncertainty{"", 0.0, 1e9};
inline constexpr Measure range_limit{"", above_zero, 1e18};

} // namespace measures
} // namespace coilward
