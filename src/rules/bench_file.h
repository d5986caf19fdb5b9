#pragma once

#include "rules/rules.h"
#include "toml/toml_source.h"

#include <vector>

namespace coilward {

/// The readings of a coil at rest, and those of one that is handled meanwhile.
struct BenchFile {
    std::vector<BenchReading> readings; ///< none has a handling
    std::vector<BenchReading> handled;  ///< each has one
};

/// Reads rules/bench.toml (docs/formats-rules.md): the readings that gave rise to no complaint.
BenchFile read_bench_file(const TomlSource&, std::vector<Complaint>&);

} // namespace coilward
