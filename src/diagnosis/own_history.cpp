#include "diagnosis/own_history.h"

#include "diagnosis/healthy_mode.h"
#include "diagnosis/log_sum.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

/// How far a sound coil's unknowns may move between two visits, one standard deviation in their measures. The
/// turns stay; copper does not age, but the contacts of two days differ; a magnet weakens and is set back
/// otherwise; enamel takes up moisture. Estimates, no published source.
constexpr std::array<double, coil_unknown_count> drift{
    1e-5, // turns
    3e-4, // ohm per turn
    1e-3, // henry per turn²
    0.02, // self-capacitance
    0.02, // frame capacitance
    0.01, // eddy share
    0.01, // eddy time
    1.0,  // frame insulation
    0.0,  // temperature: see below
};

bool asks_the_same(const Answer& one, const Answer& other) {
    return one.quantity == other.quantity && one.circuit == other.circuit;
}

bool was_asked(const Probe& probe, const Answer& answer, const Evidence& evidence) {
    return std::ranges::any_of(evidence.probes, [&](const Probe& other) {
        return other.port == probe.port && other.frequency_hz == probe.frequency_hz &&
               std::ranges::any_of(other.answers, [&](const Answer& a) { return asks_the_same(a, answer); });
    });
}

/// The prior after a healthy coil gave this evidence.
CoilPrior narrowed(const CoilPrior& prior, const Evidence& evidence) {
    const Mode mode = healthy_mode(prior, evidence, never);
    if (mode.abandoned) return prior;
    constexpr auto temperature = static_cast<Eigen::Index>(Unknown::temperature);
    Matrix covariance = covariance_of(mode);
    covariance.row(temperature).setZero();
    covariance.col(temperature).setZero();
    covariance(temperature, temperature) = 1.0 / prior.precision(temperature, temperature);
    const Eigen::Index size = covariance.rows();
    for (Eigen::Index k = 0; k < size; ++k)
        covariance(k, k) += std::pow(drift[static_cast<std::size_t>(k)], 2);

    CoilPrior after = prior;
    for (Eigen::Index k = 0; k < size; ++k)
        if (k != temperature) after.mean[static_cast<std::size_t>(k)] = mode.unknowns[k];
    after.precision = inverse(covariance);
    return after;
}

} // namespace

OwnHistory own_history(const Rules& rules, const CoilPrior& of_the_model,
                       const std::vector<EarlierExamination>& examinations) {
    OwnHistory history{of_the_model, {}};
    for (const EarlierExamination& examination : examinations) {
        if (!examination.healthy) continue;
        Evidence evidence = gather(examination.readings, rules);
        for (Probe& probe : evidence.probes)
            for (Answer& answer : probe.answers)
                answer.repeats_earlier = true;
        history.prior = narrowed(history.prior, evidence);
        history.visits.push_back({examination, std::move(evidence)});
    }
    const std::size_t healthy = history.visits.size();
    if (healthy > 0)
        history.prior.notes.push_back(fmt::format(
            "compared with {} of this coil when it was healthy: what is expected is what it measured then",
            healthy == 1 ? std::string("an earlier examination")
                         : fmt::format("{} earlier examinations", healthy)));
    if (healthy < examinations.size())
        history.prior.notes.emplace_back(
            "an earlier examination that did not find the coil healthy was not used");
    return history;
}

void mark_repeats(Evidence& now, const std::vector<HealthyVisit>& earlier) {
    for (Probe& probe : now.probes)
        for (Answer& answer : probe.answers)
            if (std::ranges::any_of(earlier, [&](const HealthyVisit& visit) {
                    return was_asked(probe, answer, visit.evidence);
                }))
                answer.repeats_earlier = true;
}

} // namespace coilward
