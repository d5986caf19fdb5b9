#include "diagnosis/joint_finding.h"

#include "diagnosis/comparison.h"
#include "diagnosis/joint_mode.h"
#include "diagnosis/log_sum.h"
#include "diagnosis/unlisted.h"
#include "metrology/log_normal.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include <Eigen/Cholesky>

namespace coilward {
namespace {

constexpr double never = -std::numeric_limits<double>::infinity();
constexpr double least_state_weight = 3e-3;
constexpr std::size_t most_states = 5;

CoilState state_of(const FaultPosterior& posterior, const Explanation& explanation) {
    const Matrix covariance = covariance_of(explanation.mode);
    constexpr auto coil = static_cast<Eigen::Index>(coil_unknown_count);
    const Matrix of_coil = covariance.topLeftCorner(coil, coil);
    return {.fault = posterior.fault,
            .weight = posterior.probability,
            .values = values_at(explanation.component, explanation.mode.unknowns),
            .precision = of_coil.llt().solve(Matrix::Identity(coil, coil))};
}

/// Each fault that is still possible, at its best explanation.
std::vector<CoilState> states_of(const CoilFinding& finding) {
    std::vector<CoilState> states;
    for (const FaultPosterior& posterior : finding.posterior) {
        if (states.size() == most_states || posterior.probability < least_state_weight) break;
        if (!posterior.explanations.empty())
            states.push_back(state_of(posterior, posterior.explanations.front()));
    }
    return states;
}

Primitive primitive_of(JointChange change) {
    switch (change) {
    case JointChange::open:
        return Primitive::series_element;
    case JointChange::load:
        return Primitive::load;
    default:
        return Primitive::none;
    }
}

/// As for a single coil's unlisted fault.
double log_broad_evidence(const JointHypothesis& expected, const Evidence& whole) {
    double sum = 0.0;
    for (const Probe& probe : whole.probes)
        for (const Answer& answer : probe.answers)
            sum += log_broad_density(answer, predict_whole(expected, answer, probe.frequency_hz).value);
    return sum;
}

double log_marginal(const CoilFinding& finding) {
    const FaultPosterior& first = finding.posterior.front();
    return first.log_weight - std::log(first.probability);
}

class JointWeighing {
public:
    JointWeighing(const PickupType& type, const TwoCoils& coils, const Evidence& evidence)
        : type_(type), coils_(coils), evidence_(evidence), first_(states_of(*coils.as_named[0])),
          second_(states_of(*coils.as_named[1])) {
        const Range coupling = type.coupling.value_or(Range{0.02, 0.3});
        log_coupling_ = std::log(log_normal(coupling).median);
        log_coupling_deviation_ = log_normal(coupling).deviation;
    }

    void run() {
        for (const JointFault& joint : type_.joint_faults)
            weigh(joint);
    }

    std::vector<FaultProbability> joints() const {
        double whole = never;
        for (const auto& [joint, weight] : joint_weight_)
            whole = log_sum(whole, weight);
        // Where nothing explains a coil, the whole says nothing about the joint.
        const bool known = std::isfinite(whole);
        double priors = 0.0;
        for (const JointFault& joint : type_.joint_faults)
            priors += joint.prior;
        std::vector<FaultProbability> result;
        for (const JointFault& joint : type_.joint_faults)
            result.push_back(
                {joint.id, known ? std::exp(joint_weight_.at(joint.id) - whole) : joint.prior / priors, {}});
        std::ranges::stable_sort(result, std::greater{}, &FaultProbability::probability);
        return result;
    }

    /// The whole's word on a coil: each of its states' weights after, divided by the one before.
    void update(Posterior& posterior, const std::map<const Fault*, double>& weights) const {
        if (weights.empty()) return;
        double whole = never;
        double asked = 0.0;
        for (FaultPosterior& p : posterior)
            if (weights.contains(p.fault)) {
                whole = log_sum(whole, weights.at(p.fault));
                asked += p.probability;
            }
        if (!std::isfinite(whole)) return;
        for (FaultPosterior& p : posterior)
            if (weights.contains(p.fault)) {
                const double after = asked * std::exp(weights.at(p.fault) - whole);
                for (Explanation& e : p.explanations)
                    e.weight *= after / p.probability;
                p.probability = after;
            }
        std::ranges::stable_sort(posterior, std::greater{}, &FaultPosterior::probability);
    }

    void update_coils() const {
        update(coils_.as_named[0]->posterior, first_weight_);
        update(coils_.as_named[1]->posterior, second_weight_);
    }

    JointHypothesis hypothesis(const CoilState& first, const CoilState& second, const Component& piece,
                               JointChange change) const {
        return {.first = first,
                .second = second,
                .in_series = type_.join == Join::series,
                .log_coupling = log_coupling_,
                .log_coupling_deviation = log_coupling_deviation_,
                .sense = change == JointChange::coil_reversed ? -1.0 : 1.0,
                .change = primitive_of(change),
                .piece = piece};
    }

private:
    void weigh(const JointFault& joint) {
        const Fault as_fault{.id = joint.id, .severities = joint.severities};
        const Hypothesis pieces = hypothesis_of(as_fault, coils_.as_named[0]->history.prior);
        double swapped = 0.0;
        if (joint.change == JointChange::coils_swapped)
            swapped = log_marginal(*coils_.swapped[0]) + log_marginal(*coils_.swapped[1]) -
                      log_marginal(*coils_.as_named[0]) - log_marginal(*coils_.as_named[1]);
        double& sum = joint_weight_[joint.id] = never;
        for (const CoilState& first : first_)
            for (const CoilState& second : second_) {
                const double base = std::log(joint.prior * first.weight * second.weight) + swapped;
                const double weight = base + log_evidence_over(pieces, first, second, joint.change);
                sum = log_sum(sum, weight);
                add(first_weight_, first.fault, weight);
                add(second_weight_, second.fault, weight);
            }
    }

    double log_evidence_over(const Hypothesis& pieces, const CoilState& first, const CoilState& second,
                             JointChange change) const {
        if (change == JointChange::unlisted)
            return log_broad_evidence(hypothesis(first, second, component_at(pieces, 0), JointChange::none),
                                      evidence_);
        double sum = never;
        for (std::size_t i = 0; i < component_count(pieces); ++i) {
            const Component piece = component_at(pieces, i);
            sum = log_sum(sum, piece.log_weight +
                                   log_evidence(hypothesis(first, second, piece, change), evidence_));
        }
        return sum;
    }

    static void add(std::map<const Fault*, double>& weights, const Fault* fault, double weight) {
        const auto [place, is_new] = weights.try_emplace(fault, weight);
        if (!is_new) place->second = log_sum(place->second, weight);
    }

    const PickupType& type_;
    const TwoCoils& coils_;
    const Evidence& evidence_;
    std::vector<CoilState> first_;
    std::vector<CoilState> second_;
    double log_coupling_ = 0.0;
    double log_coupling_deviation_ = 1.0;
    std::map<std::string, double> joint_weight_;
    std::map<const Fault*, double> first_weight_;
    std::map<const Fault*, double> second_weight_;
};

const Fault* healthy_of(const Rules& rules) {
    const auto found = std::ranges::find(rules.faults, Primitive::none, &Fault::primitive);
    return found == rules.faults.end() ? nullptr : &*found;
}

/// A healthy coil of which only its model, and its own past, are known.
CoilState unread(const CoilFinding& finding, const Fault* healthy) {
    return {.fault = healthy,
            .weight = 1.0,
            .values = finding.history.prior.mean,
            .precision = finding.history.prior.precision};
}

std::vector<Comparison> comparisons_of_whole(const JointHypothesis& expected, const Evidence& evidence,
                                             const std::vector<Reading>& readings, const Rules& rules) {
    std::vector<Comparison> comparisons;
    for (const Probe& probe : evidence.probes)
        for (const Answer& answer : probe.answers) {
            if (answer.state != State::ok || probe.port != CoilPort::leads) continue;
            const JointPrediction shown = predict_whole(expected, answer, probe.frequency_hz);
            comparisons.push_back(comparison_with(readings[answer.reading],
                                                  central_95(shown.value, std::sqrt(shown.variance)), rules));
        }
    return comparisons;
}

} // namespace

JointFinding joint_finding(const Rules& rules, const PickupType& type, TwoCoils coils,
                           const std::vector<Reading>& of_the_whole) {
    JointFinding finding{.evidence = gather(of_the_whole, rules)};
    JointWeighing weighing(type, coils, finding.evidence);
    weighing.run();
    finding.joints = weighing.joints();
    weighing.update_coils();

    const Fault* healthy = healthy_of(rules);
    const Component no_severity{.fixed = coils.as_named[0]->history.prior.mean};
    const CoilState first = unread(*coils.as_named[0], healthy);
    const CoilState second = unread(*coils.as_named[1], healthy);
    finding.comparisons =
        comparisons_of_whole(weighing.hypothesis(first, second, no_severity, JointChange::none),
                             finding.evidence, of_the_whole, rules);
    return finding;
}

} // namespace coilward
