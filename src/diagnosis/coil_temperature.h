#pragma once

#include "diagnosis/coil_prior.h"
#include "diagnosis/evidence.h"

namespace coilward {

/// How warm a coil was on one visit: mean, and one standard deviation in kelvin.
struct CoilTemperature {
    double degrees_c = 0.0;
    double deviation_k = 0.0;
};

/// What the thermometers say, each weighted by its uncertainty; the prior's where nobody read one.
CoilTemperature coil_temperature(const Evidence&, const CoilPrior&);

} // namespace coilward
