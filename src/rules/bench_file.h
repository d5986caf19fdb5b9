#pragma once

#include "rules/rules.h"
#include "toml/toml_source.h"

#include <vector>

namespace coilward {

/// Reads rules/bench.toml (docs/formats-rules.md): the readings that gave rise to no complaint.
std::vector<BenchReading> read_bench_readings(const TomlSource&, std::vector<Complaint>&);

} // namespace coilward
