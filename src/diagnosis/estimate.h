#pragma once

#include "diagnosis/diagnosis.h"
#include "diagnosis/posterior.h"
#include "diagnosis/spread.h"

namespace coilward {

/// The severities that the fault's file wants reported, each with its central 90 %.
std::vector<Estimate> estimates_of(const FaultPosterior&);

/// The measure below which `share` of all weight lies.
double quantile(const Spread&, double share);

} // namespace coilward
