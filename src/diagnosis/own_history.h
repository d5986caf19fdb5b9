#pragma once

#include "diagnosis/coil_prior.h"
#include "diagnosis/evidence.h"
#include "reading/examination.h"
#include "rules/rules.h"

#include <vector>

namespace coilward {

/// An earlier examination that found the coil healthy.
struct HealthyVisit {
    EarlierExamination as_read;
    Evidence evidence; ///< of its readings
};

/// What a coil's own earlier examinations say about it, for the judgement of today's.
struct OwnHistory {
    CoilPrior prior;                  ///< the coil as it was when it was last healthy, with room for ageing
    std::vector<HealthyVisit> visits; ///< oldest first
};

/// Each healthy examination narrows the prior to the unknowns that explain its readings (Bayes' theorem; the
/// earlier posterior, by Laplace's method, is the prior now). Temperature is left as open as before, and the
/// others are widened by what a sound coil may drift between two visits (estimates, no published source).
/// Examinations that were not healthy say nothing about the healthy coil and are only noted.
OwnHistory own_history(const Rules&, const CoilPrior& of_the_model, const std::vector<EarlierExamination>&);

/// Marks the answers that an earlier examination gave as well: what the electrical model leaves out of the
/// coil was the same then, so that most of the model's error cancels in the comparison.
void mark_repeats(Evidence& now, const std::vector<HealthyVisit>& earlier);

} // namespace coilward
