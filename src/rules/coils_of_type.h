#pragma once

#include "rules/pickup_type.h"

#include <string>
#include <vector>

namespace coilward {

/// The names of the type's coils, in its order.
std::vector<std::string> coil_names(const PickupType&);

/// Whether these are the names of the type's coils, each once and in any order. An only coil needs no name:
/// one empty name is right for it too.
bool are_coils_of(const PickupType&, const std::vector<std::string>& names);

} // namespace coilward
