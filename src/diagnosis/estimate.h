#pragma once

#include "diagnosis/diagnosis.h"
#include "diagnosis/posterior.h"
#include "diagnosis/spread.h"

namespace coilward {

/// The severities that the fault's file wants reported, each with its central 90 %, kept within its prior's
/// ends. None for the fault that is in no list.
std::vector<Estimate> estimates_of(const FaultPosterior&);

/// The measure below which `share` (0 to 1) of all weight lies, to some 20 bits. Of at least one part.
double quantile(const Spread&, double share);

} // namespace coilward
