#pragma once

#include "history/history.h"
#include "rules/rules.h"

#include <string>
#include <string_view>

namespace coilward {

/// One pickup with its former values, its visits, and of each visit what people are shown: readings in
/// words, resistances at 20 °C with their uncertainty, verdicts with their titles. On one line. Throws
/// HistoryError.
std::string pickup_for_page(const History&, const Pickup&, const Rules&);

/// A pickup as a request describes it: a new one, or `known` with what the request names changed. Throws
/// BadDocument, also where the rules do not know its type or models.
Pickup pickup_from_request(std::string_view body, const Rules&, Pickup known);

} // namespace coilward
