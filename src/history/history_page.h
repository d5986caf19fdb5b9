#pragma once

#include "history/history.h"

#include <string>

/// What a terminal of 100 columns shows. Times are UTC, values have SI prefixes; what is too long for its
/// column ends in "…".
namespace coilward {

/// A table, one line a pickup.
std::string pickup_list_page(const std::vector<Pickup>&);

/// One pickup with its former values, visits and attached files.
std::string pickup_page(const Pickup&, const std::vector<PickupChange>&, const std::vector<Visit>&,
                        const std::vector<Attachment>& = {});

/// One pickup's visits with their readings and verdicts, oldest first, and where they are asked for with the
/// beginning of each reading's id. Throws HistoryError.
std::string history_page(const History&, const Pickup&, bool with_ids = false);

/// What a meter answered: "6.112 ± 0.009 kΩ", "over 20.00 MΩ", "800.0 kΩ, wandering ± 300.0 kΩ", "reversed".
std::string answer_in_words(const Reading&);

} // namespace coilward
