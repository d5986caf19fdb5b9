#pragma once

#include "rules/coil_model.h"

#include <string>

namespace coilward {

/// The model as a file of rules/coils has it (docs/formats-rules.md). Numbers with four significant digits.
std::string coil_model_text(const CoilModel&);

} // namespace coilward
