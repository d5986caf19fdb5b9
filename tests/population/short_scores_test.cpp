#include "short_scores.h"

#include <gtest/gtest.h>

namespace population {
namespace {

Outcome outcome_with(double healthy, double shorted, double contact_ohm) {
    Outcome outcome;
    outcome.answered = true;
    outcome.probabilities = {{"healthy", healthy}, {"shorted-turns", shorted}};
    outcome.severities = {{"contact_resistance", contact_ohm}};
    return outcome;
}

/// Of 200 sound coils with odds 1/200, 2/200, … 1, just two may lie above the threshold.
TEST(ShortScores, OddsThatOneSoundCoilIn100Passes) {
    std::vector<Outcome> sound;
    for (int i = 1; i <= 200; ++i)
        sound.push_back(outcome_with(1.0, i / 200.0, 0.0));
    const double odds = odds_at_one_false_alarm_in_100(sound);
    EXPECT_DOUBLE_EQ(odds, 198.0 / 200.0);
    EXPECT_EQ(found_by_odds(sound, odds, 0.0, 1.0).hits, 2);
}

TEST(ShortScores, CountsByContact) {
    const std::vector<Outcome> shorted{outcome_with(0.2, 0.8, 1.0), outcome_with(0.9, 0.1, 2.0),
                                       outcome_with(0.1, 0.9, 100.0)};
    const Share good_contact = found_by_odds(shorted, 1.0, 0.0, 10.0);
    EXPECT_EQ(good_contact.hits, 1);
    EXPECT_EQ(good_contact.count, 2);
    EXPECT_EQ(found_by_odds(shorted, 1.0, 10.0, 1e9).hits, 1);
}

} // namespace
} // namespace population
