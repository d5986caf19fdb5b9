#pragma once

#include "cli/command.h"

namespace coilward {

/// Makes the application the program: its name, the options that hold for every command, and all commands.
/// What the help, the manual pages and the completions say of them is here and in the file of each command,
/// nowhere else.
void add_commands(CLI::App&, Session&);

} // namespace coilward
