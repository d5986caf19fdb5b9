#pragma once

#include <filesystem>

namespace coilward {

/// Where a person's history lives: $XDG_DATA_HOME/coilward, or ~/.local/share/coilward where that variable is
/// unset, empty or not absolute (XDG Base Directory Specification 0.8). The arguments are the variables
/// XDG_DATA_HOME and HOME, null where unset. Throws HistoryError where neither tells.
std::filesystem::path default_data_folder(const char* xdg_data_home, const char* home);

} // namespace coilward
