#pragma once

#include "diagnosis/posterior.h"

namespace coilward {

/// What follows where one of two priors holds and nobody knows which.
struct MixedPosterior {
    Posterior posterior;
    double chance_of_first = 0.0; ///< after the readings
};

/// Weighs two posteriors, of the same faults and readings under two priors, by the chance of the first prior
/// before the readings and by how well each foretells them (Bayes' theorem). Explanations of both are kept.
MixedPosterior mixed(Posterior first, double chance_of_first, Posterior second);

} // namespace coilward
