#pragma once

#include "diagnosis/mode.h"

namespace coilward {

/// ln of the same integral as the mode's log_evidence, with Laplace's method only across the other unknowns,
/// and numerically along the coil's unknown `along`, whose distribution may be skew or long-tailed (nested
/// Laplace approximation; H. Rue, S. Martino and N. Chopin, J. R. Stat. Soc. B 71, 2009, p. 319, sec. 3).
double log_evidence_along(Unknown along, Primitive, const Component&, const CoilPrior&, const Evidence&,
                          const Mode&);

/// ln of what the volume around the mode grows by with the curvature of the predictions along the severities,
/// which the mode's information leaves out (Gauss-Newton): by differences of the gradient, across the
/// unknowns other than `along`. 0 where that leaves no maximum.
double log_share_of_curvature(Unknown along, Primitive, const Component&, const CoilPrior&, const Evidence&,
                              const Mode&);

} // namespace coilward
