#pragma once

namespace coilward {

/// Parses the words of the command line, does the work and returns the exit code. Every failure is one line
/// on standard error: what, where, and what to do.
int run_program(int count, char** words);

} // namespace coilward
