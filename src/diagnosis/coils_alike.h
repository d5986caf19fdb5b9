#pragma once

#include "diagnosis/coil_prior.h"
#include "diagnosis/evidence.h"
#include "reading/examination.h"

#include <vector>

namespace coilward {

/// Another coil, with what its model and its readings say of it.
struct CoilMadeAlike {
    Kinship as = Kinship::set;
    bool healthy = false;   ///< as its own examination found; only a healthy one tells anything
    bool same_model = true; ///< as the coil that is examined
    CoilPrior prior;        ///< of its model
    Evidence evidence;      ///< its readings
};

/// The prior of a coil beside which others were made. A coil's unknowns are those of its model's middle, plus
/// what it shares with the coils made like it, plus what is its own:
///     x = middle + shared + own,   var shared = var x − var own.
/// Each healthy coil made alike tells of what is shared, by the best linear prediction (normal distributions;
/// its own posterior by Laplace's method); the widths of `own` are those of its kinship. Coils of the set
/// come first, then the twin, which shares more. A coil of another model shares wire and turns only.
CoilPrior prior_beside(const CoilPrior& of_the_model, const std::vector<CoilMadeAlike>&);

} // namespace coilward
