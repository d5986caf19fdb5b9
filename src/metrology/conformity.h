#pragma once

#include <string_view>

/// Where a measured value stands to limits, given its uncertainty (JCGM 106:2012). The true value is taken as
/// normal about the measured one with the standard uncertainty as its deviation. Limits may be infinite: a
/// single limit is an interval with one infinite end. Every function throws std::invalid_argument for a
/// standard uncertainty below 0, for what is not a number, and for limits in the wrong order.
namespace coilward {

/// Where a value stands to its limits.
enum class Standing { below, within, above, undecided };

/// "below", "within", "above", "undecided".
std::string_view name(Standing);

/// How probable it is that the true value lies below, within and above the limits; the three sum to 1.
struct StandingProbabilities {
    double below = 0.0;
    double within = 0.0;
    double above = 0.0;
};

/// Accurate in the tails too, where 1 − p would lose all digits.
StandingProbabilities standing_probabilities(double measured, double standard_uncertainty, double low,
                                             double high);

/// Probability that the true value lies within [low, high] (JCGM 106:2012, 7).
double probability_within(double measured, double standard_uncertainty, double low, double high);

/// The standing whose probability is `decision_probability` or more; undecided where none is. The decision
/// probability must lie above 0.5, so that only one can be, and be 1 at most; else std::invalid_argument.
Standing standing(double measured, double standard_uncertainty, double low, double high,
                  double decision_probability = 0.95);

/// What follows by a decision rule.
enum class Decision { pass, fail, measure_better };

/// "pass", "fail", "measure better".
std::string_view name(Decision);

/// A decision rule with guard bands of one width on both sides of each limit (JCGM 106:2012, 8.3): pass
/// within [low + w, high − w]; fail outside [low − w, high + w]; between them, measure better. The width is
/// guard_band(standard_uncertainty, conformance_probability), so that at an acceptance limit the probability
/// of lying beyond the limit next to it is 1 − conformance_probability.
struct Conformity {
    double probability_within = 0.0; ///< of the true value, within the limits
    double guard_band = 0.0;         ///< w, in the value's unit
    double accept_from = 0.0;        ///< low + guard band
    double accept_to = 0.0;          ///< high − guard band; below accept_from where nothing can pass
    Decision decision = Decision::measure_better;
};

/// Applies the rule, in the unit of the measured value. Throws as guard_band() does, too.
Conformity conformity(double measured, double standard_uncertainty, double low, double high,
                      double conformance_probability = 0.95);

/// z · u, where z is the one-sided normal quantile: 1.645 u for 0.95. The probability must be 0.5 or more and
/// below 1, else std::invalid_argument; 0.5 is simple acceptance, without a guard band.
double guard_band(double standard_uncertainty, double conformance_probability);

} // namespace coilward
