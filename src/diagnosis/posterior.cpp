#include "diagnosis/posterior.h"

#include "diagnosis/unlisted.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <Eigen/Cholesky>

namespace coilward {
namespace {

// Components this far (in nats) below the best can no longer move a probability that anyone reads.
constexpr double hopeless_nats = 18.0;
// Components this far below the heaviest are not kept for estimates and forecasts.
constexpr double kept_nats = 9.0;

double log_sum(double a, double b) {
    if (a < b) std::swap(a, b);
    return std::isinf(a) ? a : a + std::log1p(std::exp(b - a));
}

double log_chance(const PolarityChances& chances, Polarity polarity) {
    switch (polarity) {
    case Polarity::as_expected:
        return std::log(chances.as_expected);
    case Polarity::reversed:
        return std::log(chances.reversed);
    case Polarity::none:
        return std::log(chances.none);
    }
    return 0.0;
}

/// What a fault file states outright: how the kick test and the steadiness of readings go with the fault.
double log_evidence_of_signs(const Fault& fault, const Evidence& evidence) {
    double sum = 0.0;
    for (const Polarity polarity : evidence.polarities)
        sum += log_chance(fault.polarity, polarity);
    if (evidence.any_unstable)
        sum += std::log(fault.unstable_chance);
    else if (evidence.any_steady)
        sum += std::log1p(-fault.unstable_chance);
    return sum;
}

/// A fault's posterior in the making: `log_weight` of the whole, and of each explanation, in nats.
struct Weighed {
    FaultPosterior posterior;
    double log_weight = -std::numeric_limits<double>::infinity();
};

Weighed weigh(const Fault& fault, const CoilPrior& prior, const Evidence& evidence, double base,
              double best) {
    Weighed result{.posterior = {.fault = &fault}};
    const Hypothesis hypothesis = hypothesis_of(fault, prior);
    for (const Component& component : hypothesis.components) {
        const double offset = base + component.log_weight;
        const double bar = std::max(best, result.log_weight) - hopeless_nats - offset;
        const auto& found = result.posterior.explanations;
        Mode mode = find_mode(fault.primitive, component, prior, evidence, bar,
                              found.empty() ? nullptr : &found.back().mode);
        if (mode.abandoned) continue;
        const double log_weight = offset + mode.log_evidence;
        result.log_weight = log_sum(result.log_weight, log_weight);
        if (log_weight > result.log_weight - kept_nats)
            result.posterior.explanations.push_back({component, std::move(mode), log_weight});
    }
    return result;
}

/// From logarithms to probabilities; light explanations that were kept while the sum was small are dropped.
Posterior normalised(std::vector<Weighed> weighed) {
    double whole = -std::numeric_limits<double>::infinity();
    for (const Weighed& w : weighed)
        whole = log_sum(whole, w.log_weight);
    Posterior result;
    for (Weighed& w : weighed) {
        w.posterior.probability = std::exp(w.log_weight - whole);
        auto& explanations = w.posterior.explanations;
        std::erase_if(explanations,
                      [&](const Explanation& e) { return e.weight < w.log_weight - kept_nats; });
        for (Explanation& e : explanations)
            e.weight = std::exp(e.weight - whole);
        std::ranges::sort(explanations, std::greater{}, &Explanation::weight);
        result.push_back(std::move(w.posterior));
    }
    std::ranges::stable_sort(result, std::greater{}, &FaultPosterior::probability);
    return result;
}

} // namespace

Posterior posterior(const Rules& rules, const CoilPrior& prior, const Evidence& evidence) {
    const double log_prior_volume = prior.precision.llt().matrixLLT().diagonal().array().log().sum();
    std::vector<Weighed> weighed;
    double best = -std::numeric_limits<double>::infinity();
    // What is in no list first: it takes no search, and tells which components can't matter.
    for (const Fault& fault : rules.faults) {
        if (fault.primitive != Primitive::unlisted) continue;
        weighed.push_back(
            {{.fault = &fault}, std::log(fault.prior) + log_evidence_unlisted(prior, evidence)});
        best = std::max(best, weighed.back().log_weight);
    }
    for (const Fault& fault : rules.faults) {
        if (fault.primitive == Primitive::unlisted) continue;
        const double base = std::log(fault.prior) + log_evidence_of_signs(fault, evidence);
        weighed.push_back(weigh(fault, prior, evidence, base + log_prior_volume, best));
        best = std::max(best, weighed.back().log_weight);
    }
    return normalised(std::move(weighed));
}

} // namespace coilward
