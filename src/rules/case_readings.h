#pragma once

#include "reading/reading.h"
#include "toml/table_reader.h"

#include <vector>

namespace coilward {

/// The `readings` of a case, which have the members of the readings form. What is wrong with one becomes a
/// complaint, and it is left out.
std::vector<Reading> read_case_readings(TableReader& worked_case);

} // namespace coilward
