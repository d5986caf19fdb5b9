#pragma once

#include "outcome.h"
#include "score.h"

#include <ostream>
#include <vector>

namespace population {

/// Odds of shorted turns against a sound coil from which on the one in a hundred sound coils with the
/// greatest would be called shorted: what a reader who takes that many false alarms would go by.
double odds_at_one_false_alarm_in_100(const std::vector<Outcome>& sound);

/// How many of the shorted coils whose contact has a resistance from `low` up to `high` ohm have greater
/// odds.
Share found_by_odds(const std::vector<Outcome>& shorted, double odds, double low_ohm, double high_ohm);

/// A Markdown table: how many of the shorted coils are found, by the resistance of the contact that bridges
/// the turns, and how many of the sound ones are called shorted.
void print_short_scores(const std::vector<Outcome>& shorted, const std::vector<Outcome>& sound,
                        std::ostream&);

} // namespace population
