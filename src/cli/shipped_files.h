#pragma once

#include <filesystem>

namespace coilward {

/// The folder that holds the rules/ and drivers/ that ship. A program in a build folder finds them in the
/// source, an installed one beside itself: src/packaging/shipped has both answers, and CMake links one of
/// them.
std::filesystem::path shipped_files();

} // namespace coilward
