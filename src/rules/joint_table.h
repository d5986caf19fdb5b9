#pragma once

#include "rules/pickup_type.h"
#include "toml/table_reader.h"

#include <vector>

namespace coilward {

/// Reads the `[[joint]]` tables of a pickup of several coils (docs/formats-rules.md). Exactly one of them
/// must be what is right, and exactly one must stand for everything else. What is wrong becomes a complaint.
std::vector<JointFault> read_joint_faults(TableReader& pickup);

} // namespace coilward
