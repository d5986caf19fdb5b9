#pragma once

#include <filesystem>

namespace coilward {

/// Parses the words of the command line, does the work and returns the exit code. Every failure is one line
/// on standard error: what, where, and what to do. `shipped` is the folder that holds the rules/ and drivers/
/// that ship.
int run_program(int count, char** words, const std::filesystem::path& shipped);

} // namespace coilward
