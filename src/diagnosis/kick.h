#pragma once

#include "diagnosis/posterior.h"

namespace coilward {

/// The one of the three that belongs to this answer, 0 to 1.
double chance_of(Polarity, const PolarityChances&);

/// Chances of each answer of the kick test where the coil has this fault and these severities. The current of
/// the kick passes the series resistance R and the voltmeter's input resistance V, so that the meter shows
/// V / (V + R) of what it shows of a sound coil (voltage divider). How strong a kick is differs from coil to
/// coil and from one piece of steel to the next by more than that, so the share that is lost stands for the
/// chance that nothing is seen: an estimate.
PolarityChances kick_chances(const Fault&, const Values&);

/// The same over all of a fault's explanations, by their weights.
PolarityChances kick_chances(const FaultPosterior&);

/// The greatest chance that this answer can have under a fault, whatever its severities.
double greatest_chance_of_kick(Polarity, const Fault&);

} // namespace coilward
