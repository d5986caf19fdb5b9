#pragma once

#include "diagnosis/joint_weighing.h"

namespace coilward {

/// The readings of the whole not yet taken, by how much each is expected to tell about the joint per second.
std::vector<NextReading> next_of_whole(const Rules&, const PickupType&, const JointWeighing&,
                                       const Evidence& of_the_whole, const std::vector<Reading>& taken);

/// For each number read of the whole: what these two coils, as they were read, show where they are joined as
/// they should be, and what the leading joint (where that is it, the runner-up) shows; with how far it speaks
/// for the leader against the other.
std::vector<Reason> reasons_of_whole(const std::vector<FaultProbability>& joints, const JointWeighing&,
                                     const Evidence& of_the_whole, const std::vector<Reading>&);

} // namespace coilward
