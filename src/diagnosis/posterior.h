#pragma once

#include "diagnosis/log_sum.h"
#include "diagnosis/mode.h"
#include "rules/rules.h"

#include <vector>

namespace coilward {

/// A component that carries weight, at its mode.
struct Explanation {
    Component component;
    Mode mode;
    double weight = 0.0; ///< its share of all probability, over all faults
};

/// How probable one fault is, and by which of its components.
struct FaultPosterior {
    const Fault* fault = nullptr; ///< of the rules, which outlive it
    double probability = 0.0;     ///< 0 to 1; all faults sum to 1
    /// ln(prior · evidence), the readings' density with it: to compare coil models
    double log_weight = never;
    std::vector<Explanation> explanations; ///< heaviest first; none for the fault that is in no list
    /// Of the fault that is in no list: the other model that a healthy coil would explain it by, if any does.
    const CoilModel* fits = nullptr;
};

/// Every fault of the rules, most probable first.
using Posterior = std::vector<FaultPosterior>;

/// ln of the readings' density whatever the fault: of the sum of prior times evidence over all of them.
double log_evidence(const Posterior&);

/// Prior times evidence over all faults, for one coil (Bayes' theorem, Laplace's method). `named` is the coil
/// model that a person gave, which may be mistaken; nullptr where the coil's own past vouches for it.
Posterior posterior(const Rules&, const CoilPrior&, const Evidence&, const CoilModel* named);

} // namespace coilward
