#pragma once

#include <filesystem>

namespace coilward {

/// Where a person's own rules/ and drivers/ are: $XDG_CONFIG_HOME/coilward, or ~/.config/coilward where that
/// variable is unset, empty or not absolute (XDG Base Directory Specification 0.8). The arguments are the
/// variables XDG_CONFIG_HOME and HOME, null where unset. Empty where neither tells.
std::filesystem::path own_files(const char* xdg_config_home, const char* home);

} // namespace coilward
