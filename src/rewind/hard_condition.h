#pragma once

#include "rewind/confirmation.h"

namespace coilward {

/// Continuity, polarity and insulation to the frame of one coil, in this order.
std::vector<HardCondition> hard_conditions(const std::vector<StoredReading>&, const std::string& coil,
                                           const ConfirmationRule&);

} // namespace coilward
