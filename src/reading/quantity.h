#pragma once

#include <optional>
#include <string_view>
#include <vector>

/// What a bench measures, between which points, and in which equivalent circuit. The words are those of the
/// readings document (docs/formats.md); the unit follows from the quantity, so that the two cannot disagree.
namespace coilward {

/// What can be read. unit() tells the SI unit of each.
enum class Quantity {
    temperature,           ///< degC
    dc_resistance,         ///< ohm
    inductance,            ///< H
    ac_resistance,         ///< ohm
    quality_factor,        ///< 1
    dissipation_factor,    ///< 1
    impedance_magnitude,   ///< ohm
    phase_angle,           ///< rad
    capacitance,           ///< F
    insulation_resistance, ///< ohm
    dc_voltage,            ///< V
    polarity,              ///< no number: see Polarity
    resonance_frequency,   ///< Hz
    magnet_pole,           ///< no number: a Polarity, of the magnet alone, by compass
};

/// The two points between which it is read. `leads_frame`: both leads joined, against the frame.
enum class Between { leads, start_frame, finish_frame, start_shield, finish_shield, leads_frame };

/// The equivalent circuit in which a meter splits an impedance into two numbers.
enum class Circuit { series, parallel };

/// What the meter said instead of, or together with, a number.
enum class State { ok, over_range, under_range, unstable };

/// The sign of the first voltage kick when steel nears a pole, against the sign that the pickup type expects;
/// of a magnet_pole, which end of the compass needle the pole draws, against the pole that it expects.
enum class Polarity { as_expected, reversed, none };

/// What was done to the coil while the reading was taken, to see whether the reading minds.
enum class Handling {
    warmed,  ///< the coil, by hand or with a hair dryer
    pressed, ///< the joints, with a stick
    lifted,  ///< the controls and the cable, off the leads
};

/// The word of the readings document (docs/formats.md): "dc_resistance".
std::string_view name(Quantity);
std::string_view name(Between);  ///< "start-frame"
std::string_view name(Circuit);  ///< "series"
std::string_view name(State);    ///< "over_range"
std::string_view name(Polarity); ///< "as_expected"
std::string_view name(Handling); ///< "warmed"

/// By that word, letter for letter; nothing where there is none such.
std::optional<Quantity> quantity_named(std::string_view);
std::optional<Between> between_named(std::string_view);   ///< as name(Between) writes it
std::optional<Circuit> circuit_named(std::string_view);   ///< as name(Circuit) writes it
std::optional<State> state_named(std::string_view);       ///< as name(State) writes it
std::optional<Polarity> polarity_named(std::string_view); ///< as name(Polarity) writes it
std::optional<Handling> handling_named(std::string_view); ///< as name(Handling) writes it

/// Every word of a kind (Quantity, Between, Circuit, State, Polarity or Handling), in the order of its
/// enumeration.
template <typename Kind>
std::vector<std::string_view> all_names();

/// The SI unit as it is written in documents: "ohm", "H", "F", "Hz", "V", "degC", "rad", "1"; "" for
/// what is a Polarity.
std::string_view unit(Quantity);

/// True for what has no number but a Polarity.
bool is_polarity(Quantity);

/// True for what is measured with an alternating test signal and therefore belongs to a frequency.
bool needs_frequency(Quantity);

} // namespace coilward
