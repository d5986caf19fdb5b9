#pragma once

#include "coil/impedance.h"
#include "rules/fault.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace coilward {

/// What is not known of a coil: first what every coil has, then the severities of the faults. Each is kept in
/// its own measure: the natural logarithm of a positive quantity in SI units, or the plain number for a
/// temperature (degC) and a position (0 to 1).
enum class Unknown {
    turns,
    ohm_per_turn,
    henry_per_turn2,
    self_capacitance,
    frame_capacitance,
    eddy_share,
    eddy_time,
    frame_insulation,
    temperature,
    shorted_fraction,
    bridge_resistance,
    bridge_leakage,
    series_resistance,
    series_capacitance,
    break_position,
    self_capacitance_factor,
    leak_resistance,
    leak_position,
    turns_factor,
    resistance_factor,
    load_resistance,
    load_capacitance,
    tone_resistance,
    tone_capacitance,
    count
};

/// How many unknowns there are.
inline constexpr std::size_t unknown_count = static_cast<std::size_t>(Unknown::count);

/// How many of them every coil has; they come first.
inline constexpr std::size_t coil_unknown_count = static_cast<std::size_t>(Unknown::temperature) + 1;

/// A value for every unknown, in its own measure.
using Values = std::array<double, unknown_count>;

/// The place of an unknown among the values.
inline double& at(Values& values, Unknown unknown) {
    return values[static_cast<std::size_t>(unknown)];
}

/// An unknown's value, in its own measure.
inline double at(const Values& values, Unknown unknown) {
    return values[static_cast<std::size_t>(unknown)];
}

/// The unknown that a severity of a fault file names; nothing for a word that is none.
std::optional<Unknown> unknown_named(std::string_view);

/// True where the measure is the number itself and not its logarithm.
bool is_linear(Unknown);

/// From the number in SI units to the unknown's measure. That a number of which the logarithm is taken is
/// above 0 is not checked.
double to_measure(Unknown, double number);

/// From the measure back to the number in SI units.
double to_number(Unknown, double measure);

/// The least and the greatest measure that is physically possible.
struct Bounds {
    double low;
    double high;
};

/// In the unknown's own measure; infinite where there is none.
Bounds bounds_of(Unknown);

/// By which derivative of an impedance the unknown acts.
Parameter parameter_of(Unknown);

/// The circuit that the values and a primitive stand for.
struct CircuitUnderTest {
    Coil coil;
    FaultElement fault;
};

/// The coil and its fault element that these values describe.
CircuitUnderTest circuit_of(Primitive, const Values&);

} // namespace coilward
