#pragma once

#include "cli/command.h"
#include "history/history.h"

#include <string>

namespace coilward {

/// The session's history: in the folder of --data, else in the user's own data folder. Throws HistoryError.
History open_history(const Session&);

/// `coilward history move`.
void add_move_command(CLI::App& history);

/// `coilward history correct`.
void add_correct_command(CLI::App& history, Session&);

/// `coilward pickup attach` and `fetch`.
void add_attachment_commands(CLI::App& pickup, Session&);

/// `coilward pickup stage`.
void add_stage_command(CLI::App& pickup, Session&);

/// The pickup that a person names on the command line. Throws CLI::ValidationError where the words name none,
/// or more than one, and HistoryError.
Pickup pickup_in_words(const History&, const std::string& words);

} // namespace coilward
