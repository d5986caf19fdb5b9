#pragma once

/// Annealed copper: its resistivity and how its resistance follows the temperature.
namespace coilward {

/// Conductivity of the International Annealed Copper Standard at 20 °C: 58 m/(ohm mm²). Source: IEC 60028, as
/// quoted by an industrial power engineering handbook p. 970 and by the GNU units definition file.
inline constexpr double iacs_conductivity_s_per_m = 58.0e6;

/// Nominal conductivity of winding wire in IEC 60317-0-1: 58.5 m/(ohm mm²). It reproduces the nominal
/// resistances of a published table of enamelled wire within 0.04 %.
inline constexpr double winding_wire_conductivity_s_per_m = 58.5e6;

/// Temperature coefficient of resistance at 20 °C of copper of IACS conductivity (IEC 60028).
inline constexpr double copper_alpha_20_per_kelvin = 0.00393;

/// The coefficient at 20 °C of copper of another conductivity: 0.00393 · C, where C is the conductivity
/// relative to IACS. Source: micro-ohm meter manual (Hioki RM3545, appendix 4). Throws std::invalid_argument
/// where C is not above 0.
double copper_alpha_20(double relative_conductivity);

/// The coefficient at another temperature, α_t = 1 / (1 / (0.00393 · C) + t − 20). Same source. Throws
/// std::invalid_argument at and below the temperature where the linear law has no resistance left (−234.45 °C
/// for IACS copper).
double copper_alpha_at(double temperature_c, double relative_conductivity = 1.0);

/// Resistance at 20 °C of a conductor that measures `resistance_ohm` at a temperature, by the linear law
/// R(T) = R20 (1 + α (T − 20)). Throws std::invalid_argument where that law has no resistance left.
double resistance_at_20_ohm(double resistance_ohm, double temperature_c,
                            double alpha_20_per_kelvin = copper_alpha_20_per_kelvin);

/// The inverse: resistance at a temperature of a conductor that has `resistance_20_ohm` at 20 °C. Throws as
/// the above.
double resistance_at_ohm(double resistance_20_ohm, double temperature_c,
                         double alpha_20_per_kelvin = copper_alpha_20_per_kelvin);

/// The temperature, degC, at which a conductor of known resistance at 20 °C measures `resistance_ohm`. Throws
/// std::invalid_argument where either is not above 0.
double conductor_temperature_c(double resistance_ohm, double resistance_20_ohm,
                               double alpha_20_per_kelvin = copper_alpha_20_per_kelvin);

/// Ohm per metre at 20 °C of a round wire, 4 / (π d² σ). Throws std::invalid_argument where an argument is
/// not above 0.
double ohm_per_metre_20(double conductor_diameter_m, double conductivity_s_per_m = iacs_conductivity_s_per_m);

} // namespace coilward
