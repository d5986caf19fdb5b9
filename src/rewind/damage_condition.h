#pragma once

#include "history/history.h"
#include "rewind/confirmation.h"
#include "rules/rules.h"

#include <vector>

namespace coilward {

/// That a finished coil is not damaged, by the diagnosis of the same readings: shorted turns, a break, a leak
/// or controls still on it can all lie within limits that are wide enough for every sound coil. A number of
/// turns or a wire that the model does not have is no damage: the limits judge it. Fails where damage is
/// decided; asks to measure better where it leads. Throws CannotDiagnose where the rules do not know the
/// model.
HardCondition damage_condition(const Rules&, const CoilModel&, const std::vector<StoredReading>& of_the_coil);

} // namespace coilward
