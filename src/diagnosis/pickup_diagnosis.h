#pragma once

#include "diagnosis/diagnosis.h"

#include <string>
#include <utility>
#include <vector>

namespace coilward {

/// The answer for a pickup of several coils.
struct PickupDiagnosis {
    std::string id;                                       ///< the examination's; may be empty
    std::string pickup_type;                              ///< its id
    std::vector<std::pair<std::string, Diagnosis>> coils; ///< by name, in the pickup type's order
    Diagnosis whole;          ///< its faults are those of the joint, as the pickup type's rules say
    std::string verdict_coil; ///< the coil, or "whole", that the verdict is about
    FaultProbability verdict; ///< the worst of all verdicts; the whole's where nothing is wrong
    bool decided = false;     ///< where nothing is wrong, of the whole and of each coil
};

/// Judges each coil by its own readings, then how the coils are joined by the readings of the whole, and lets
/// the whole speak about the coils as well. A temperature without a coil's name is that of all; any other
/// reading without one is of the whole. Throws CannotDiagnose where the pickup type is unknown or not one of
/// two coils, where a coil's model is unknown or missing, and for a coil that the type does not have;
/// std::invalid_argument as diagnose() does.
PickupDiagnosis diagnose_pickup(const Rules&, const Examination&);

} // namespace coilward
