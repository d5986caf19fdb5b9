#pragma once

#include "diagnosis/posterior.h"

#include <vector>

namespace coilward {

/// One explanation's part of an unknown's distribution: normal in the unknown's measure, or a point where the
/// deviation is 0.
struct SpreadPart {
    double weight = 0.0; ///< they need not sum to 1
    double mean = 0.0;
    double deviation = 0.0;
};

/// How an unknown is distributed if the coil has this fault: the sum of the parts.
using Spread = std::vector<SpreadPart>;

/// In the unknown's own measure (to_measure). Empty for the fault that is in no list.
Spread spread_of(const FaultPosterior&, Unknown);

/// The weight at or below a measure.
double weight_below(const Spread&, double measure);

} // namespace coilward
