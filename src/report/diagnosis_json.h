#pragma once

#include "diagnosis/diagnosis.h"

#include <string>

namespace coilward {

/// The diagnosis document (docs/formats.md) on one line.
std::string diagnosis_to_json(const Diagnosis&);

} // namespace coilward
