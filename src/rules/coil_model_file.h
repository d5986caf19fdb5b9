#pragma once

#include "rules/coil_model.h"
#include "rules/heading.h"

#include <optional>

namespace coilward {

/// Reads rules/coils/ID.toml (docs/formats-rules.md). Nothing where the file gave rise to any complaint.
std::optional<CoilModel> read_coil_model(const TomlSource&, IdsInFolder&, std::vector<Complaint>&);

} // namespace coilward
