#pragma once

#include "meter/driver.h"
#include "toml/toml_source.h"

#include <filesystem>
#include <optional>
#include <vector>

namespace coilward {

/// Reads one drivers/ID.toml. Where anything is wrong there are complaints and nothing is returned.
std::optional<Driver> read_driver(const std::filesystem::path& file, std::vector<Complaint>&);

/// The same for a file whose text is already here.
std::optional<Driver> read_driver(const TomlSource&, std::vector<Complaint>&);

} // namespace coilward
