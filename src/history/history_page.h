#pragma once

#include "history/history.h"

#include <string>

namespace coilward {

// What a terminal of 100 columns shows. Times are UTC, values have SI prefixes; what is too long for its
// column ends in "…".

/// A table, one line a pickup.
std::string pickup_list_page(const std::vector<Pickup>&);

/// One pickup with its former values and visits.
std::string pickup_page(const Pickup&, const std::vector<PickupChange>&, const std::vector<Visit>&);

/// One pickup's visits with their readings and verdicts, oldest first. Throws HistoryError.
std::string history_page(const History&, const Pickup&);

/// What a meter answered: "6.112 ± 0.009 kΩ", "over 20.00 MΩ", "800.0 kΩ, wandering ± 300.0 kΩ", "reversed".
std::string answer_in_words(const Reading&);

} // namespace coilward
