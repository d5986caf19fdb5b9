#pragma once

#include "diagnosis/diagnosis.h"
#include "diagnosis/posterior.h"

namespace coilward {

/// The readings not yet taken, of the coil at rest or handled, by how much each is expected to tell about
/// which fault it is (mutual information between fault and reading, in bits) per second of bench time. Those
/// that tell next to nothing are left out.
std::vector<NextReading> next_readings(const Rules&, const Posterior&, const std::vector<Reading>& taken);

} // namespace coilward
