#pragma once

#include "rules/fault.h"
#include "toml/table_reader.h"

namespace coilward {

/// Reads `distribution` and the keys that belong to that kind from a `[[severity]]` table; the values must be
/// within the measure. What is wrong becomes a complaint; the distribution is then no use.
Distribution read_distribution(TableReader&, const Measure&);

} // namespace coilward
