#pragma once

#include "diagnosis/posterior.h"

namespace coilward {

/// Weighs anew, while weights are logarithms still, what Laplace's method weighs badly: explanations by a
/// coil whose eddy currents the readings bound but do not measure. Their share is known to a factor of
/// several before. Where it is small it shows nowhere, so that its distribution has a long tail; and it
/// trades with a severity, so far that the predictions are curved along that.
void follow_long_tails(Posterior&, const CoilPrior&, const Evidence&);

} // namespace coilward
