#include "diagnosis/joint_finding.h"

#include "diagnosis/comparison.h"
#include "diagnosis/joint_next.h"
#include "diagnosis/joint_weighing.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

namespace coilward {
namespace {

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
    const Evidence nothing;
    std::vector<Comparison> comparisons;
    for (const Probe& probe : evidence.probes)
        for (const Answer& answer : probe.answers) {
            if (answer.state != State::ok || probe.port != CoilPort::leads) continue;
            const JointPrediction shown = predict_whole(expected, nothing, answer, probe.frequency_hz);
            comparisons.push_back(comparison_with(readings[answer.reading],
                                                  central_95(shown.value, std::sqrt(shown.variance)), rules));
        }
    return comparisons;
}

/// A handled or magnetic reading of the whole has no coil to be judged by.
std::vector<Reading> usable(const std::vector<Reading>& of_the_whole, std::vector<std::string>& notes) {
    std::vector<Reading> used;
    for (const Reading& reading : of_the_whole) {
        if (is_at_rest(reading))
            used.push_back(reading);
        else
            notes.push_back(
                fmt::format("{}: not used, it is judged of one coil; name the coil", describe(reading)));
    }
    return used;
}

} // namespace

JointFinding joint_finding(const Rules& rules, const PickupType& type, const TwoCoils& coils,
                           const std::vector<Reading>& of_the_whole) {
    JointFinding finding;
    const std::vector<Reading> used = usable(of_the_whole, finding.notes);
    finding.evidence = gather(used, rules);
    std::ranges::copy(finding.evidence.notes, std::back_inserter(finding.notes));
    const JointWeighing weighing(type, coils, finding.evidence);
    finding.joints = weighing.joints();
    finding.reasons = reasons_of_whole(finding.joints, weighing, finding.evidence, used);
    finding.next = next_of_whole(rules, type, weighing, finding.evidence, used);
    weighing.update_coils();
    if (!any_coil_was_read_alone(coils))
        finding.notes.emplace_back(
            "no coil was read by itself: that the coils are exchanged does not show in the "
            "whole and was not weighed");

    const Fault* healthy = healthy_of(rules);
    const Component no_severity{.fixed = coils.as_named[0]->history.prior.mean};
    const CoilState first = unread(*coils.as_named[0], healthy);
    const CoilState second = unread(*coils.as_named[1], healthy);
    finding.comparisons = comparisons_of_whole(
        weighing.hypothesis(first, second, no_severity, JointChange::none), finding.evidence, used, rules);
    return finding;
}

} // namespace coilward
