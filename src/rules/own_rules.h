#pragma once

#include "rules/rules.h"

namespace coilward {

/// The rules of a folder with a person's own laid over them, file by file: its coils/x.toml takes the place
/// of the folder's, what is there alone is added. The own folder need hold nothing else, nor be there at all;
/// empty: none.
LoadedRules read_rules(const std::filesystem::path& folder, const std::filesystem::path& own_folder);

/// The same, but throws BadRules when there is any complaint.
Rules load_rules(const std::filesystem::path& folder, const std::filesystem::path& own_folder);

} // namespace coilward
