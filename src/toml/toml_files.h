#pragma once

#include "toml/complaint.h"

#include <filesystem>
#include <system_error>
#include <vector>

namespace coilward {

/// The *.toml files of a folder, by name; other files there are nobody's business. `error` says why there are
/// none.
std::vector<std::filesystem::path> toml_files(const std::filesystem::path& folder, std::error_code& error);

/// The files that ship, laid over by those of a person's own folder: one of the same name takes its place,
/// any other is added. By name. An own folder that is not there adds nothing; one that cannot be read is a
/// complaint.
std::vector<std::filesystem::path> with_own_files(std::vector<std::filesystem::path> shipped,
                                                  const std::filesystem::path& own_folder,
                                                  std::vector<Complaint>&);

} // namespace coilward
