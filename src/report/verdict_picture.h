#pragma once

#include "diagnosis/pickup_diagnosis.h"

#include <string>

namespace coilward {

/// The verdict as a picture (SVG 1.1, no fonts or files of its own): its title and estimates, each reading on
/// the band of what healthy coils measure, probabilities as bars. For a document or a letter.
std::string verdict_picture(const Diagnosis&, const Rules&);

/// The same of a pickup of several coils: each coil with its section, then the whole.
std::string verdict_picture(const PickupDiagnosis&, const Rules&);

} // namespace coilward
