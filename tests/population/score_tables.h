#pragma once

#include "outcome.h"
#include "score.h"

#include <ostream>
#include <string>
#include <vector>

namespace population {

/// With one decimal.
std::string percent(double share);

/// With the half-width of its 95 % interval.
std::string with_interval(const Share&);

/// All scores as Markdown.
void print_scores(const std::vector<Outcome>&, std::ostream&);

} // namespace population
