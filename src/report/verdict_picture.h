#pragma once

#include "diagnosis/diagnosis.h"

#include <string>

namespace coilward {

/// The verdict as a picture (SVG 1.1, no fonts or files of its own): its title and estimates, each reading on
/// the band of what healthy coils measure, probabilities as bars. For a document or a letter.
std::string verdict_picture(const Diagnosis&, const Rules&);

} // namespace coilward
