#pragma once

#include "diagnosis/pickup_diagnosis.h"
#include "history/kin.h"

#include <vector>

namespace coilward {

/// Says in a coil's notes beside which others it was held.
void note_kin(Diagnosis&, const std::vector<Kin>&);

/// The same of each coil of a pickup.
void note_kin(PickupDiagnosis&, const std::vector<Kin>&);

} // namespace coilward
