#pragma once

#include "reading/reading.h"

#include <vector>

namespace coilward {

/// Gives a quality or dissipation factor that has no uncertainty the one that follows from the number beside
/// it, of one measurement. A meter's relative error e of an impedance is an error of its angle as well (data
/// sheets: D is within ± accuracy / 100 where D is small), so with Q = tan φ and D = cot φ: u(Q) = (1 + Q²) e
/// and u(D) = (1 + D²) e. Nothing is added where no
/// inductance or capacitance with an uncertainty is among the readings.
void add_loss_uncertainty(std::vector<Reading>&);

} // namespace coilward
