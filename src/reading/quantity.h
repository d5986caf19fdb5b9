#pragma once

#include <optional>
#include <string_view>
#include <vector>

/// What a bench measures, between which points, and in which equivalent circuit. The words are those of the
/// readings document (docs/formats.md); the unit follows from the quantity, so that the two cannot disagree.
namespace coilward {

/// What can be read. unit() tells the SI unit of each.
enum class Quantity {
    temperature,           // degC
    dc_resistance,         // ohm
    inductance,            // H
    ac_resistance,         // ohm
    quality_factor,        // 1
    dissipation_factor,    // 1
    impedance_magnitude,   // ohm
    phase_angle,           // rad
    capacitance,           // F
    insulation_resistance, // ohm
    dc_voltage,            // V
    polarity,              // no number: see Polarity
    resonance_frequency,   // Hz
};

/// The two points between which it is read.
enum class Between { leads, start_frame, finish_frame, start_shield, finish_shield };

/// The equivalent circuit in which a meter splits an impedance into two numbers.
enum class Circuit { series, parallel };

/// What the meter said instead of, or together with, a number.
enum class State { ok, over_range, under_range, unstable };

/// The sign of the first voltage kick when steel nears a pole, against the sign that the pickup type expects.
enum class Polarity { as_expected, reversed, none };

/// The word of the readings document (docs/formats.md).
std::string_view name(Quantity);
std::string_view name(Between);
std::string_view name(Circuit);
std::string_view name(State);
std::string_view name(Polarity);

/// By that word; nothing where there is none such.
std::optional<Quantity> quantity_named(std::string_view);
std::optional<Between> between_named(std::string_view);
std::optional<Circuit> circuit_named(std::string_view);
std::optional<State> state_named(std::string_view);
std::optional<Polarity> polarity_named(std::string_view);

/// Every word of a kind (Quantity, Between, Circuit, State or Polarity), in the order of its enumeration.
template <typename Kind>
std::vector<std::string_view> all_names();

/// The SI unit as it is written in documents: "ohm", "H", "F", "Hz", "V", "degC", "rad", "1"; "" for
/// polarity.
std::string_view unit(Quantity);

/// True for what is measured with an alternating test signal and therefore belongs to a frequency.
bool needs_frequency(Quantity);

} // namespace coilward
