#pragma once

#include "diagnosis/pickup_diagnosis.h"

#include <string>

namespace coilward {

/// The diagnosis document (docs/formats.md) with a member "words" more: what people are shown of it in the
/// words of the terminal's page, and the cross-section of the winding as SVG. On one line.
std::string diagnosis_for_page(const Diagnosis&, const Rules&);

/// The same of a pickup of several coils: each coil and the whole have their "words".
std::string diagnosis_for_page(const PickupDiagnosis&, const Rules&);

} // namespace coilward
