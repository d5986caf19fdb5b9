#pragma once

#include "diagnosis/coil_finding.h"
#include "rules/pickup_type.h"

#include <array>
#include <vector>

namespace coilward {

/// How probable each state of the joint between two coils is.
struct JointFinding {
    Evidence evidence;                    ///< the whole's readings
    std::vector<FaultProbability> joints; ///< most probable first
    std::vector<Comparison> comparisons;  ///< beside a pickup of healthy coils, rightly joined
    std::vector<Reason> reasons;          ///< strongest first
    std::vector<NextReading> next;        ///< of the whole, most information per second first
    std::vector<std::string> notes;       ///< what was assumed, or left out, and why
};

/// What decides about the joint of two coils: their findings, and what each would be with the other's model.
struct TwoCoils {
    std::array<CoilFinding*, 2> as_named;      ///< in the pickup type's order; none is nullptr
    std::array<const CoilFinding*, 2> swapped; ///< the same readings, with the other's model
};

/// Weighs the joint's faults, and the coils' states with them, against the readings of the whole; the
/// coils' probabilities are updated in place.
JointFinding joint_finding(const Rules&, const PickupType&, const TwoCoils&,
                           const std::vector<Reading>& of_the_whole);

} // namespace coilward
