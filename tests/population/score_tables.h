#pragma once

#include "outcome.h"

#include <ostream>
#include <vector>

namespace population {

/// All scores as Markdown.
void print_scores(const std::vector<Outcome>&, std::ostream&);

} // namespace population
