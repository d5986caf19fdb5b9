#pragma once

#include "cli/command.h"
#include "rules/rules.h"

#include <string>

namespace coilward {

/// The whole text of a file, or of standard input for "-". Throws BadInput where it cannot be read.
std::string read_input(const std::string& file);

/// The session's rules. Throws BadInput with the first complaint.
Rules rules_of(const Session&);

} // namespace coilward
