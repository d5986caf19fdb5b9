#pragma once

#include "bench/port.h"
#include "cli/command.h"

#include <string>
#include <vector>

namespace coilward {

/// The session's drivers. Throws BadInput with the first complaint.
std::vector<Driver> drivers_of(const Session&);

/// The driver that --meter names. Throws CLI::ValidationError where there is none of that name, BadInput
/// where its file cannot be used.
Driver driver_in_words(const Session&, const std::string& id);

/// The port that --port names. Throws CLI::ValidationError.
Port port_in_words(const std::string& words);

} // namespace coilward
