#pragma once

#include "diagnosis/diagnosis.h"
#include "diagnosis/posterior.h"

namespace coilward {

/// The severities that the fault's file wants reported, each with its central 90 %.
std::vector<Estimate> estimates_of(const FaultPosterior&);

} // namespace coilward
