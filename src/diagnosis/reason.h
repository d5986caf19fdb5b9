#pragma once

#include "diagnosis/diagnosis.h"
#include "diagnosis/posterior.h"

namespace coilward {

/// For each reading, how far it speaks for the leading fault against healthy (for healthy: against the
/// runner-up), strongest first. Both are taken at their best explanation of all readings together.
std::vector<Reason> reasons_for(const Posterior&, const std::vector<Reading>&, const Evidence&,
                                const CoilPrior&);

} // namespace coilward
