#pragma once

#include "cli/command.h"

#include <memory>
#include <string>

namespace spdlog {
class logger;
}

namespace coilward {

/// What happened along the way, with its time: for whoever asks afterwards why a reading is missing or who
/// was turned away. Never the answer of a command.
using Log = std::shared_ptr<spdlog::logger>;

/// By --log: a file that is added to, standard error for "-", or a log that keeps nothing. Throws BadInput
/// where the file cannot be written.
Log open_log(const Session&);

/// What went as it should; one line.
void note(const Log&, const std::string& line);

/// What did not; one line.
void warn(const Log&, const std::string& line);

} // namespace coilward
