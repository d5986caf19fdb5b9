#pragma once

#include "diagnosis/coil_prior.h"
#include "diagnosis/evidence.h"

namespace coilward {

/// ln of the probability density of the readings under "none of these": each number somewhere within some
/// decades of what a healthy coil shows, with either sign, whatever the others are. A blunder, a wrong coil
/// model or a fault that nobody listed is then more probable here than as the least bad of the others.
double log_evidence_unlisted(const CoilPrior&, const Evidence&);

} // namespace coilward
