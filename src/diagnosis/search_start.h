#pragma once

#include "diagnosis/evidence.h"
#include "diagnosis/unknown.h"

#include <vector>

namespace coilward {

/// Whether a reading across the leads was taken at so high a frequency that a coil may resonate near it.
bool may_be_near_resonance(const Evidence&);

/// The starts, and where a reading was taken near a coil's resonance each of them again with so much
/// self-capacitance that it resonates below and above the reading's frequency: what an impedance shows turns
/// over there, and no search by slopes passes from one side to the other.
std::vector<Values> beside_resonance(std::vector<Values> starts, const Evidence&);

} // namespace coilward
