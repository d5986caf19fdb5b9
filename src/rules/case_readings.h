#pragma once

#include "toml/table_reader.h"

#include <string>

namespace coilward {

/// The `readings` of a case, which have the members of the readings form, as a JSON array on one line.
std::string read_case_readings(TableReader& worked_case);

} // namespace coilward
