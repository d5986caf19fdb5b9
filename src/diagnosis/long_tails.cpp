#include "diagnosis/long_tails.h"

#include "diagnosis/nested_laplace.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace coilward {
namespace {

// Of all: what weighs less moves no probability that anyone reads by how it is integrated.
const double log_least_share = std::log(0.005);

/// True where the readings say something of the eddy currents' share, and leave it wide.
bool is_bounded_only(const Mode& mode, const CoilPrior& prior) {
    constexpr auto k = static_cast<Eigen::Index>(Unknown::eddy_share);
    constexpr double wide = 0.35; // of its logarithm: a factor of two either way
    if (mode.information.coil(k, k) < 1.01 * prior.precision(k, k)) return false;
    return covariance_with(Unknown::eddy_share, mode)[k] > wide * wide;
}

/// By how much it weighs more (in nats) than Laplace's method has it.
double change_of(const Explanation& explanation, Primitive primitive, const CoilPrior& prior,
                 const Evidence& evidence) {
    const Mode& mode = explanation.mode;
    if (!is_bounded_only(mode, prior)) return 0.0;
    return log_evidence_along(Unknown::eddy_share, primitive, explanation.component, prior, evidence, mode) -
           mode.log_evidence +
           log_share_of_curvature(Unknown::eddy_share, primitive, explanation.component, prior, evidence,
                                  mode);
}

void follow_long_tails(FaultPosterior& posterior, const CoilPrior& prior, const Evidence& evidence,
                       double log_least) {
    auto& all = posterior.explanations;
    if (all.empty()) return;
    const double heaviest = std::ranges::max_element(all, {}, &Explanation::weight)->weight;
    const double least = std::min(log_least, heaviest);
    const auto first_light =
        std::partition(all.begin(), all.end(), [&](const Explanation& e) { return e.weight >= least; });
    double before = never;
    double after = never;
    const auto change = [&](Explanation& explanation, double by) {
        before = log_sum(before, explanation.weight);
        explanation.weight += by;
        after = log_sum(after, explanation.weight);
    };
    double lightest = heaviest;
    double change_of_lightest = 0.0; // and so about of those that are lighter still
    for (Explanation& explanation : std::span(all.begin(), first_light)) {
        const double by = change_of(explanation, posterior.fault->primitive, prior, evidence);
        if (explanation.weight <= lightest) change_of_lightest = by;
        lightest = std::min(lightest, explanation.weight);
        change(explanation, by);
    }
    for (Explanation& explanation : std::span(first_light, all.end()))
        change(explanation, change_of_lightest);
    posterior.log_weight += after - before;
}

} // namespace

void follow_long_tails(Posterior& posterior, const CoilPrior& prior, const Evidence& evidence) {
    const double log_least = log_evidence(posterior) + log_least_share;
    const auto matters = [&](const FaultPosterior& fault) { return fault.log_weight > log_least; };
    if (std::ranges::count_if(posterior, matters) < 2) return; // nothing beside it to weigh it against
    for (FaultPosterior& fault : posterior)
        if (matters(fault)) follow_long_tails(fault, prior, evidence, log_least);
}

} // namespace coilward
