#pragma once

#include <filesystem>

namespace coilward {

/// Gives a file that is now whole the name that was asked for. Throws HistoryError where the system refuses;
/// then the file is left under the name that it has, which the error tells.
void give_name(const std::filesystem::path& whole, const std::filesystem::path& name);

} // namespace coilward
