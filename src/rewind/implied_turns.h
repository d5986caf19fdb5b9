#pragma once

#include "rewind/confirmation.h"

namespace coilward {

/// The turns that the judged resistance and inductance imply by the coil model, beside what the counter said:
/// N = N0·R / R0 and N = N0·√(L / L0), where N0, R0 and L0 are the middles of the model's ranges, and their
/// spread is what its ohm per turn and henry per turn² leave open. `model` may be null.
TurnsCheck turns_check(const std::vector<Checked>&, const CoilModel* model,
                       const std::optional<Uncertain>& counted);

} // namespace coilward
