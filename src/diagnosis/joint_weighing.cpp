#include "diagnosis/joint_weighing.h"

#include "diagnosis/log_sum.h"
#include "diagnosis/unlisted.h"
#include "metrology/log_normal.h"
#include "rules/joint_element.h"

#include <algorithm>
#include <cmath>

namespace coilward {
namespace {

constexpr double least_state_weight = 3e-3;
constexpr std::size_t most_states = 5;
/// Controls and cable hang on the whole pickup. Something that loads one coil while the whole is free of it
/// is a switch or a wire at the joint, which one pickup in ten or so has: estimate, no published source.
constexpr double chance_of_load_on_one = 0.1;

CoilState state_of(const FaultPosterior& posterior, const Explanation& explanation) {
    const Matrix covariance = covariance_of(explanation.mode);
    constexpr auto coil = static_cast<Eigen::Index>(coil_unknown_count);
    return {.fault = posterior.fault,
            .weight = posterior.probability,
            .values = values_at(explanation.component, explanation.mode.unknowns),
            .precision = inverse(covariance.topLeftCorner(coil, coil))};
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

bool is_loaded(const CoilState& state) {
    return state.fault->primitive == Primitive::load;
}

/// How likely a coil's state is where the joint is in this one, beside how likely it was of a coil alone.
double chance_together(const JointFault& joint, const CoilState& first, const CoilState& second) {
    return joint.change != JointChange::load && (is_loaded(first) || is_loaded(second))
               ? chance_of_load_on_one
               : 1.0;
}

/// As for a single coil's unlisted fault.
double log_broad_evidence(const JointHypothesis& expected, const Evidence& whole) {
    const Evidence nothing;
    double sum = 0.0;
    for (const Probe& probe : whole.probes)
        for (const Answer& answer : probe.answers)
            sum +=
                log_broad_density(answer, predict_whole(expected, nothing, answer, probe.frequency_hz).value);
    return sum;
}

bool was_read(const CoilFinding& finding) {
    return !finding.evidence.probes.empty() || !finding.evidence.resonances.empty();
}

double log_marginal(const CoilFinding& finding) {
    const FaultPosterior& first = finding.posterior.front();
    return first.log_weight - std::log(first.probability);
}

/// One state's weight in the whole's word: what it was, or a sum.
void add(std::map<const Fault*, double>& weights, const Fault* fault, double weight) {
    const auto [place, is_new] = weights.try_emplace(fault, weight);
    if (!is_new) place->second = log_sum(place->second, weight);
}

/// Each of a coil's states' weights after the whole was read, divided by the one before.
void update(Posterior& posterior, const std::map<const Fault*, double>& weights) {
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
            if (p.probability > 0.0)
                for (Explanation& e : p.explanations)
                    e.weight *= after / p.probability;
            p.probability = after;
        }
    std::ranges::stable_sort(posterior, std::greater{}, &FaultPosterior::probability);
}

} // namespace

bool any_coil_was_read_alone(const TwoCoils& coils) {
    return was_read(*coils.as_named[0]) || was_read(*coils.as_named[1]);
}

JointWeighing::JointWeighing(const PickupType& type, const TwoCoils& coils, const Evidence& evidence)
    : type_(type), coils_(coils), evidence_(evidence), first_(states_of(*coils.as_named[0])),
      second_(states_of(*coils.as_named[1])) {
    const Range coupling = type.coupling.value_or(Range{0.02, 0.3});
    log_coupling_ = std::log(log_normal(coupling).median);
    log_coupling_deviation_ = log_normal(coupling).deviation;
    double swapped = never;
    if (any_coil_was_read_alone(coils)) {
        first_swapped_ = states_of(*coils.swapped[0]);
        second_swapped_ = states_of(*coils.swapped[1]);
        swapped = log_marginal(*coils.swapped[0]) + log_marginal(*coils.swapped[1]) -
                  log_marginal(*coils.as_named[0]) - log_marginal(*coils.as_named[1]);
    }
    for (const JointFault& joint : type.joint_faults)
        if (joint.change == JointChange::coils_swapped)
            weigh(joint, first_swapped_, second_swapped_, swapped);
        else
            weigh(joint, first_, second_, 0.0);
    std::ranges::stable_sort(explanations_, std::greater{}, &JointExplanation::log_weight);
}

std::vector<FaultProbability> JointWeighing::joints() const {
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

void JointWeighing::update_coils() const {
    update(coils_.as_named[0]->posterior, first_weight_);
    update(coils_.as_named[1]->posterior, second_weight_);
}

JointHypothesis JointWeighing::hypothesis(const CoilState& first, const CoilState& second,
                                          const Component& piece, JointChange change) const {
    return {.first = first,
            .second = second,
            .in_series = type_.join == Join::series,
            .log_coupling = log_coupling_,
            .log_coupling_deviation = log_coupling_deviation_,
            .sense = change == JointChange::coil_reversed ? -1.0 : 1.0,
            .change = primitive_of(change),
            .piece = piece};
}

void JointWeighing::weigh(const JointFault& joint, const std::vector<CoilState>& first_states,
                          const std::vector<CoilState>& second_states, double log_offset) {
    double& sum = joint_weight_[joint.id] = never;
    const Fault as_fault{.id = joint.id, .severities = joint.severities};
    const Hypothesis pieces = hypothesis_of(as_fault, coils_.as_named[0]->history.prior);
    const bool whole_was_read = !evidence_.probes.empty();
    for (const CoilState& first : first_states)
        for (const CoilState& second : second_states) {
            const double together = whole_was_read ? chance_together(joint, first, second) : 1.0;
            const double base = std::log(joint.prior * first.weight * second.weight * together) + log_offset;
            const double weight = weigh_pieces(joint, pieces, first, second, base);
            sum = log_sum(sum, weight);
            add(first_weight_, first.fault, weight);
            add(second_weight_, second.fault, weight);
        }
}

double JointWeighing::weigh_pieces(const JointFault& joint, const Hypothesis& pieces, const CoilState& first,
                                   const CoilState& second, double base) {
    if (joint.change == JointChange::unlisted)
        return base + log_broad_evidence(
                          hypothesis(first, second, component_at(pieces, 0), JointChange::none), evidence_);
    double sum = never;
    for (std::size_t i = 0; i < component_count(pieces); ++i) {
        const Component piece = component_at(pieces, i);
        const double weight =
            base + piece.log_weight + log_evidence(hypothesis(first, second, piece, joint.change), evidence_);
        explanations_.push_back({&joint, &first, &second, piece, weight});
        sum = log_sum(sum, weight);
    }
    return sum;
}

} // namespace coilward
