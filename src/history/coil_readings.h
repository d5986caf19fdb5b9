#pragma once

#include "history/history.h"

#include <set>
#include <string>
#include <vector>

namespace coilward {

/// What was read on a visit, as it holds now. Throws HistoryError.
std::vector<Reading> readings_that_hold(const History&, const Visit&);

/// The bench's temperature belongs to no coil alone.
bool is_bench_temperature(const Reading&);

/// The coil's own, or the bench's temperature.
bool is_of_coil(const Reading&, const std::string& coil);

/// One coil's readings and the bench's temperatures, as of a pickup that has no other coil.
std::vector<Reading> of_coil(std::vector<Reading>, const std::string& coil);

/// The coils whose last verdict on that visit was healthy and decided. Throws HistoryError.
std::set<std::string> coils_judged_sound(const History&, const Visit&);

} // namespace coilward
