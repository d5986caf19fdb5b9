#pragma once

#include "rules/heading.h"
#include "rules/pickup_type.h"

#include <optional>

namespace coilward {

/// Reads rules/pickups/ID.toml (docs/formats-rules.md). Nothing where the file gave rise to any complaint.
/// `coil_models` knows which coil models there are.
std::optional<PickupType> read_pickup_type(const TomlSource&, IdsInFolder&, const IdsInFolder& coil_models,
                                           std::vector<Complaint>&);

} // namespace coilward
