#pragma once

#include "diagnosis/linear_algebra.h"
#include "diagnosis/unknown.h"
#include "rules/coil_model.h"
#include "rules/pickup_type.h"

#include <string>
#include <vector>

namespace coilward {

/// What is known of a healthy coil's unknowns before any reading: a normal distribution over the first
/// `coil_unknown_count` of them, in their measures.
struct CoilPrior {
    Values mean{};                  ///< the coil's part is used; the severities are at "no fault"
    Matrix precision;               ///< inverse covariance, coil_unknown_count square, in those measures
    std::vector<std::string> notes; ///< what the model left open and how it was filled
};

/// The prior of a coil model: medians such that the predictions at 20 °C are the middle of the model's
/// ranges, widths such that they spread as the ranges do. With R = N·s and L = N²·P,
///   var ln R = var ln N + var ln s,   var ln L = 4 var ln N + var ln P,
/// each remainder's deviation floored at a third of the whole's, so that a narrow range never makes a
/// negative variance; and what Q's range leaves when these are taken out is how much eddy currents differ (R.
/// C. Jeffrey, The Logic of Decision, 1965, ch. 11). So the unknowns of a model with a range of Q vary
/// together. A quantity of which the model is silent takes `allowed`'s range; how eddy currents of an unknown
/// construction differ is an own estimate, no published figure.
CoilPrior coil_prior(const CoilModel&, const AllowedRanges& allowed);

/// Standard deviation of one of the coil's unknowns, whatever the others are, in its measure.
double deviation_of(const CoilPrior&, Unknown);

} // namespace coilward
