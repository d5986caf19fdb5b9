#pragma once

#include <filesystem>
#include <string_view>

namespace coilward {

/// Writes a new file, whole or not at all: under another name beside it first, which is given up where
/// anything fails, and synced before it gets its own. Throws std::runtime_error with one line: also where
/// there is a file of that name.
void write_whole_file(const std::filesystem::path& file, std::string_view bytes);

} // namespace coilward
