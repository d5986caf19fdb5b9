#pragma once

#include "rules/fault.h"
#include "rules/heading.h"

#include <optional>

namespace coilward {

/// Reads rules/faults/ID.toml (docs/formats-rules.md). Nothing where the file gave rise to any complaint.
/// `coil_models` knows which coil models there are, for the cases.
std::optional<Fault> read_fault(const TomlSource&, IdsInFolder&, const IdsInFolder& coil_models,
                                std::vector<Complaint>&);

} // namespace coilward
