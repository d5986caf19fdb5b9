#pragma once

#include "diagnosis/evidence.h"
#include "diagnosis/log_sum.h"
#include "rules/rules.h"

namespace coilward {

/// How well the readings go with healthy coils of the other models that the rules know: all of them or, where
/// the ohmmeter was on a coil of the named model, those of the LCR meter.
struct AnotherModel {
    const CoilModel* best = nullptr; ///< the likeliest; nullptr where none goes with the resistance
    /// ln of the readings' density, each other model and either way as probable as the next, with the priors'
    /// volumes
    double log_evidence = never;
};

/// What stays below `hopeless` (ln of such a density) may be left out. Nothing of any model where no ohmmeter
/// was read across the leads.
AnotherModel healthy_of_another_model(const Rules&, const CoilModel& named, const Evidence&, double hopeless);

} // namespace coilward
