#pragma once

#include "bench/port.h"
#include "cli/command.h"
#include "guide/bench_meter.h"

#include <deque>
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

/// The meters in the order of their words, each with its port; none is opened yet. The drivers are kept in
/// `drivers`. Throws CLI::ValidationError, or BadInput where a capture cannot be used.
std::vector<BenchMeter> bench_meters_in_words(const Session&, const std::vector<std::string>& meters,
                                              const std::vector<std::string>& ports,
                                              std::deque<Driver>& drivers);

} // namespace coilward
