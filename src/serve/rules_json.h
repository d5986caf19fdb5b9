#pragma once

#include "rules/rules.h"

#include <string>

namespace coilward {

/// {"coil_models": [...]}: every model with its ranges in SI units and in words, on one line.
std::string coil_models_to_json(const Rules&);

/// {"pickup_types": [...]}: id, title and coils.
std::string pickup_types_to_json(const Rules&);

/// {"faults": [...]}: what a person reads of each fault, most frequent first.
std::string faults_to_json(const Rules&);

} // namespace coilward
