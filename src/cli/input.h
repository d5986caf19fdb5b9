#pragma once

#include "cli/command.h"
#include "rules/rules.h"

#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// The whole text of a file, or of standard input for "-". Throws BadInput where it cannot be read; `wanted`
/// is what the file should be, as "a readings document".
std::string read_input(const std::string& file, std::string_view wanted);

/// The session's rules. Throws BadInput with the first complaint.
Rules rules_of(const Session&);

/// The first complaint on one line, with how many more there are and which command shows them all.
std::string in_one_line(const std::vector<Complaint>&, std::string_view shows_all);

} // namespace coilward
