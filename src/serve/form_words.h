#pragma once

#include <string>

namespace coilward {

/// What is said of a command's options ("give it with --tape") as a form says it: a field is called as the
/// option, but without its dashes.
std::string without_dashes(std::string words);

} // namespace coilward
