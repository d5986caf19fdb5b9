#pragma once

#include <filesystem>
#include <vector>

#include <nlohmann/json.hpp>

namespace population {

/// The documents of a file with one on each line. Throws std::runtime_error with the line of a bad one.
std::vector<nlohmann::ordered_json> json_lines(const std::filesystem::path&);

} // namespace population
