#pragma once

#include "rewind/plan.h"

#include <array>

namespace coilward {

/// The figures of a plan, in their order.
enum class FigureOf {
    turns,
    wire_length,
    wire_mass,
    layers,
    depth,
    depth_left,
    fill,
    resistance_20,
    resistance_now,
    inductance,
    resonance_alone,
    resonance_loaded,
    count
};

inline constexpr std::size_t figure_count = static_cast<std::size_t>(FigureOf::count);

/// By FigureOf; SI units.
using FigureValues = std::array<double, figure_count>;

/// Turns by which the job's target is reached.
double turns_for_target(const Job&);

/// Every figure when so many turns are wound; NaN where the job does not tell. `turns` itself is
/// turns_for_target, whose sensitivity is that of the choice.
FigureValues figures_of(const Job&, double turns);

} // namespace coilward
