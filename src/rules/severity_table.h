#pragma once

#include "rules/fault.h"
#include "toml/table_reader.h"

#include <vector>

namespace coilward {

/// Reads the `[[severity]]` tables that a primitive needs, each with its distribution
/// (docs/formats-rules.md). What is wrong becomes a complaint.
std::vector<Severity> read_severities(TableReader& parent, Primitive);

/// The same for a fault of a joint between coils, whose place is known: without the position in a coil.
std::vector<Severity> read_joint_severities(TableReader& parent, Primitive);

} // namespace coilward
