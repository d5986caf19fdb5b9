#include "diagnosis/mixed_posterior.h"

#include "diagnosis/log_sum.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <utility>

namespace coilward {
namespace {

/// With every weight times the chance that its prior is the right one, before the readings and after.
void scale(Posterior& posterior, double log_before, double after) {
    for (FaultPosterior& p : posterior) {
        p.log_weight += log_before;
        p.probability *= after;
        for (Explanation& e : p.explanations)
            e.weight *= after;
    }
}

void add(FaultPosterior& sum, FaultPosterior other) {
    if (other.probability > sum.probability) sum.fits = other.fits;
    sum.probability += other.probability;
    sum.log_weight = log_sum(sum.log_weight, other.log_weight);
    std::ranges::move(other.explanations, std::back_inserter(sum.explanations));
    std::ranges::stable_sort(sum.explanations, std::greater{}, &Explanation::weight);
}

} // namespace

MixedPosterior mixed(Posterior first, double chance_of_first, Posterior second) {
    const double log_first = std::log(chance_of_first);
    const double log_second = std::log1p(-chance_of_first);
    const double log_odds = log_evidence(first) + log_first - log_evidence(second) - log_second;
    const double after = 1.0 / (1.0 + std::exp(-log_odds));
    scale(first, log_first, after);
    scale(second, log_second, 1.0 - after);
    for (FaultPosterior& p : first)
        add(p, std::move(*std::ranges::find(second, p.fault, &FaultPosterior::fault)));
    std::ranges::stable_sort(first, std::greater{}, &FaultPosterior::probability);
    return {std::move(first), after};
}

} // namespace coilward
