#pragma once

#include <array>
#include <optional>

namespace coilward {

struct FaultPosterior;

/// Where along the winding a fault lies: chances that sum to 1.
struct PlaceInWinding {
    double at_start = 0.0;          ///< at the start lead, where the winding begins, inside
    std::array<double, 20> parts{}; ///< in equal parts of the turns, from start to finish
    double at_finish = 0.0;         ///< at the finish lead, outside
    /// At the finish lead or in the outermost fiftieth of the turns, which can be unwound: then the coil is
    /// mended without a rewind (common practice, no published source for how much may go).
    double mendable_outside = 0.0;
};

/// Nothing for a fault that has no place, or where nothing explains the readings by it.
std::optional<PlaceInWinding> place_in_winding(const FaultPosterior&);

} // namespace coilward
