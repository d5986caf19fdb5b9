#pragma once

#include "diagnosis/bordered.h"
#include "diagnosis/evidence.h"
#include "diagnosis/hypothesis.h"
#include "diagnosis/linear_algebra.h"

#include <limits>
#include <optional>

namespace coilward {

/// The most probable values of a component's unknowns, and Laplace's approximation around them.
struct Mode {
    Vector unknowns;           ///< the coil's first, then the component's severities, in their measures
    Bordered information;      ///< inverse covariance: second derivatives of −ln(posterior) at the mode
    double log_evidence = 0.0; ///< ln ∫ prior · likelihood, without the component's weight
    bool abandoned = false;    ///< given up because it can no longer matter
};

/// Finds the mode by damped Gauss-Newton steps and integrates around it: −½ residual² − ½ prior² − ½ ln det.
/// The volume of the coil's prior (½ ln det of its precision) is left for the caller to add.
/// Gives up when even several times the predicted gain would stay below `hopeless` (a log evidence).
Mode find_mode(Primitive, const Component&, const CoilPrior&, const Evidence&, const Values& start,
               double hopeless);

/// When a search is given up.
struct Patience {
    /// A log evidence: where even several times the predicted gain would stay below it.
    double hopeless = 0.0;
    /// In nats: where it hardly comes on any more and is so far below `hopeless`. Some that seem stuck still
    /// arrive.
    double reach_of_stuck = std::numeric_limits<double>::infinity();
};

/// About where a wide component's mode lies: as if every answer through the coil were uncertain by a third of
/// itself, so that no narrow valley between two sharp readings catches the search far from its end. Nothing
/// where even without that uncertainty it cannot matter.
std::optional<Values> rough_place(Primitive, const Component&, const CoilPrior&, const Evidence&,
                                  const Values& start, const Patience&);

/// A roaming component's mode.
struct WideMode {
    Values values{};           ///< all of them, in their measures
    double log_evidence = 0.0; ///< as Mode has it
};

/// Where a wide component's mode lies; nothing where it cannot matter.
std::optional<WideMode> roam(Primitive, const Component&, const CoilPrior&, const Evidence&,
                             const Values& start, const Patience&);

/// How the unknowns spread around the mode, and together.
Matrix covariance_of(const Mode&);

/// How they all spread with one of the coil's: its column of that.
Vector covariance_with(Unknown, const Mode&);

} // namespace coilward
