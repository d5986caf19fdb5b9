#pragma once

#include "diagnosis/coil_prior.h"
#include "diagnosis/evidence.h"

namespace coilward {

/// ln of the density of one answer that may be anything: somewhere within some decades of what is healthy,
/// with either sign, or a state in place of a number. Per unit of the answer, which `healthy` has too. How
/// broad: own choice, no published source.
double log_broad_density(const Answer&, double healthy);

/// ln of the probability density of the readings under "none of these": each number somewhere within some
/// decades of what a healthy coil shows, with either sign, whatever the others are. A blunder, a wrong coil
/// model or a fault that nobody listed is then more probable here than as the least bad of the others.
double log_evidence_unlisted(const CoilPrior&, const Evidence&);

/// ln of the density of readings of which one, whichever it is, has nothing to do with the coil (a wrong
/// range, a misread prefix, another coil under the probes), while a healthy coil explains the others. The
/// prior's own volume is still to be added, as for every find_mode(). What stays below `hopeless` may be left
/// out.
double log_evidence_of_one_blunder(const CoilPrior&, const Evidence&, double hopeless);

} // namespace coilward
