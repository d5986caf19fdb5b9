#pragma once

#include "wire/basis.h"

#include <optional>

namespace coilward {

/// Thickness of the enamel on AWG magnet wire.
enum class Build { single, heavy };

/// What the enamel adds. Each figure is absent where it is not known.
struct OverallDiameter {
    std::optional<double> minimum_increase_m; ///< overall less bare diameter
    std::optional<double> maximum_m;          ///< over the enamel
    Basis basis = Basis::published;
};

/// Overall diameter of magnet wire of 36 to 46 AWG. 36 to 40 are published (a wire maker's table of round
/// magnet wire, NEMA MW 1000); 41 to 46 are marked unverified and must not decide anything. Nothing for other
/// gauges.
std::optional<OverallDiameter> awg_overall_diameter(int awg, Build);

} // namespace coilward
