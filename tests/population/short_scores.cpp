#include "short_scores.h"

#include "score_tables.h"

#include <algorithm>
#include <array>
#include <functional>
#include <limits>
#include <string>

namespace population {
namespace {

constexpr const char* shorted_turns = "shorted-turns";

double odds_of_short(const Outcome& outcome) {
    const auto probability = [&](const char* fault) {
        const auto found = outcome.probabilities.find(fault);
        return found == outcome.probabilities.end() ? 0.0 : found->second;
    };
    return probability(shorted_turns) / std::max(probability("healthy"), 1e-300);
}

bool has_contact(const Outcome& outcome, double low_ohm, double high_ohm) {
    const double ohm = outcome.severities.at("contact_resistance");
    return ohm >= low_ohm && ohm < high_ohm;
}

Share found_as_leader(const std::vector<Outcome>& shorted, double low_ohm, double high_ohm) {
    Share share;
    for (const Outcome& outcome : shorted)
        if (has_contact(outcome, low_ohm, high_ohm)) share.add(outcome.named == shorted_turns);
    return share;
}

} // namespace

double odds_at_one_false_alarm_in_100(const std::vector<Outcome>& sound) {
    if (sound.empty()) return std::numeric_limits<double>::infinity();
    std::vector<double> odds;
    for (const Outcome& outcome : sound)
        odds.push_back(odds_of_short(outcome));
    const auto place = odds.begin() + static_cast<std::ptrdiff_t>(odds.size() / 100);
    std::nth_element(odds.begin(), place, odds.end(), std::greater{});
    return *place;
}

Share found_by_odds(const std::vector<Outcome>& shorted, double odds, double low_ohm, double high_ohm) {
    Share share;
    for (const Outcome& outcome : shorted)
        if (has_contact(outcome, low_ohm, high_ohm)) share.add(odds_of_short(outcome) > odds);
    return share;
}

void print_short_scores(const std::vector<Outcome>& shorted, const std::vector<Outcome>& sound,
                        std::ostream& out) {
    struct Band {
        const char* title;
        double low_ohm;
        double high_ohm;
    };

    constexpr std::array<Band, 4> bands{{{"up to 10 Ω", 0.0, 10.0},
                                         {"10 to 30 Ω", 10.0, 30.0},
                                         {"30 to 300 Ω", 30.0, 1e9},
                                         {"all", 0.0, 1e9}}};
    const double odds = odds_at_one_false_alarm_in_100(sound);
    out << "| contact | leader | by odds that 1 in 100 sound coils passes |\n| --- | --- | --- |\n";
    for (const auto& [title, low, high] : bands)
        out << "| " << title << " | " << with_interval(found_as_leader(shorted, low, high)) << " | "
            << with_interval(found_by_odds(shorted, odds, low, high)) << " |\n";
    Share alarms;
    for (const Outcome& outcome : sound)
        alarms.add(outcome.named == shorted_turns);
    out << "| sound coils called shorted | " << with_interval(alarms) << " | 1 in 100 |\n";
}

} // namespace population
