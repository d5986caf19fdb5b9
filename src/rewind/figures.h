#pragma once

#include "rewind/plan.h"

#include <array>

namespace coilward {

/// The figures of a plan, in their order.
enum class FigureOf {
    turns,            ///< as the target asks
    wire_length,      ///< metre
    wire_mass,        ///< kilogram, with its enamel
    layers,           ///< were they wound turn beside turn
    depth,            ///< metre, of the wire alone
    depth_left,       ///< metre, to the edge of the flanges, less the tape; below 0 it does not fit
    fill,             ///< wire and tape over the depth there is; above 1 it does not fit
    resistance_20,    ///< ohm at 20 °C
    resistance_now,   ///< ohm at the job's temperature
    inductance,       ///< henry
    resonance_alone,  ///< hertz
    resonance_loaded, ///< hertz, with cable and controls
    count
};

/// How many figures there are.
inline constexpr std::size_t figure_count = static_cast<std::size_t>(FigureOf::count);

/// By FigureOf; SI units.
using FigureValues = std::array<double, figure_count>;

/// Turns by which the job's target is reached, a fraction too. Throws std::invalid_argument for an inductance
/// without knowledge of the coil.
double turns_for_target(const Job&);

/// Every figure when so many turns are wound; NaN where the job does not tell. `turns` itself is
/// turns_for_target, whose sensitivity is that of the choice. Throws as that does.
FigureValues figures_of(const Job&, double turns);

} // namespace coilward
