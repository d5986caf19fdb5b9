#include "diagnosis/joint_next.h"

#include "diagnosis/comparison.h"
#include "diagnosis/forecast.h"
#include "diagnosis/next_reading.h"
#include "diagnosis/read_form.h"
#include "diagnosis/reason.h"
#include "units/engineering.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr double least_share = 1e-3; // of all explanations, for one that is worth a forecast

Answer answer_to(const Reading& question) {
    return {.quantity = question.quantity,
            .circuit = question.circuit.value_or(usual_circuit(question.quantity))};
}

/// Only what is read across the leads of the whole follows from the joined coils.
bool is_predicted(const BenchReading& bench) {
    return bench.between == Between::leads && !is_polarity(bench.quantity) &&
           bench.quantity != Quantity::temperature && bench.quantity != Quantity::dc_voltage &&
           bench.quantity != Quantity::resonance_frequency;
}

std::vector<Forecast> forecasts_of(const BenchReading& bench, const Reading& question,
                                   const std::vector<JointFault>& joints, const JointWeighing& weighing,
                                   const Evidence& evidence) {
    std::vector<Forecast> forecasts;
    const auto& explanations = weighing.explanations();
    for (const JointExplanation& e : explanations) {
        const double share = std::exp(e.log_weight - explanations.front().log_weight);
        if (share < least_share) break;
        const JointPrediction shown = predict_whole(weighing.hypothesis(e), evidence, answer_to(question),
                                                    question.frequency_hz.value_or(0.0));
        forecasts.push_back(as_read({static_cast<std::size_t>(e.joint - joints.data()), share, shown.value,
                                     std::sqrt(shown.variance)},
                                    bench));
    }
    return forecasts;
}

const JointExplanation* heaviest(const JointWeighing& weighing, const std::string& joint) {
    const auto found = std::ranges::find_if(weighing.explanations(),
                                            [&](const JointExplanation& e) { return e.joint->id == joint; });
    return found == weighing.explanations().end() ? nullptr : &*found;
}

/// The heaviest explanation of a joint that is as it should be, or, where that leads, of the runner-up.
const JointExplanation* other_than(const JointExplanation& leader, const JointWeighing& weighing) {
    const bool leader_is_fine = leader.joint->change == JointChange::none;
    const auto found = std::ranges::find_if(weighing.explanations(), [&](const JointExplanation& e) {
        return e.joint != leader.joint && (leader_is_fine || e.joint->change == JointChange::none);
    });
    return found == weighing.explanations().end() ? nullptr : &*found;
}

class JointReasoning {
public:
    JointReasoning(const JointExplanation& leader, const JointExplanation& other,
                   const JointWeighing& weighing, const Evidence& evidence,
                   const std::vector<Reading>& readings)
        : leader_(leader), other_(other), weighing_(weighing), evidence_(evidence), readings_(readings) {}

    std::vector<Reason> strongest_first() {
        for (const Probe& probe : evidence_.probes)
            for (const Answer& answer : probe.answers)
                if (answer.state == State::ok) add(probe, answer);
        std::ranges::stable_sort(reasons_, std::greater{}, &Reason::decibans);
        return std::move(reasons_);
    }

private:
    bool leader_is_fine() const { return leader_.joint->change == JointChange::none; }

    void add(const Probe& probe, const Answer& answer) {
        const Evidence nothing;
        const JointExplanation& fine = leader_is_fine() ? leader_ : other_;
        const JointExplanation& fault = leader_is_fine() ? other_ : leader_;
        const JointPrediction right =
            predict_whole(weighing_.hypothesis(fine), nothing, answer, probe.frequency_hz);
        const JointPrediction wrong =
            predict_whole(weighing_.hypothesis(fault), evidence_, answer, probe.frequency_hz);
        const Range range = central_95(right.value, std::sqrt(right.variance));
        const std::string_view unit_name = unit(answer.quantity);
        const Evidence alone{.probes = {{probe.port, probe.frequency_hz, {answer}}}};
        const double nats = log_evidence(weighing_.hypothesis(leader_), alone) -
                            log_evidence(weighing_.hypothesis(other_), alone);
        reasons_.push_back(
            {describe(readings_[answer.reading]),
             fmt::format("read {}; these two coils, joined as they should be, show {}, “{}” {}",
                         engineering(answer.value, unit_name),
                         engineering_range(range.low, range.high, unit_name), fault.joint->title,
                         engineering(wrong.value, unit_name)),
             nats * decibans_per_nat});
    }

    const JointExplanation& leader_;
    const JointExplanation& other_;
    const JointWeighing& weighing_;
    const Evidence& evidence_;
    const std::vector<Reading>& readings_;
    std::vector<Reason> reasons_;
};

} // namespace

std::vector<NextReading> next_of_whole(const Rules& rules, const PickupType& type,
                                       const JointWeighing& weighing, const Evidence& of_the_whole,
                                       const std::vector<Reading>& taken) {
    std::vector<NextReading> next;
    for (const BenchReading& bench : rules.bench_readings) {
        Reading question = question_of(bench);
        if (!is_predicted(bench) || is_taken(question, taken)) continue;
        question.coil = "whole";
        const double gain =
            gain_bits(forecasts_of(bench, question, type.joint_faults, weighing, of_the_whole), std::nullopt);
        if (gain > least_gain_bits)
            next.push_back({describe(question), bench.how, gain, bench.seconds, question});
    }
    std::ranges::stable_sort(next, std::greater{},
                             [](const NextReading& n) { return n.gain_bits / n.seconds; });
    return next;
}

std::vector<Reason> reasons_of_whole(const std::vector<FaultProbability>& joints,
                                     const JointWeighing& weighing, const Evidence& of_the_whole,
                                     const std::vector<Reading>& readings) {
    const JointExplanation* leader = heaviest(weighing, joints.front().fault);
    const JointExplanation* other = leader ? other_than(*leader, weighing) : nullptr;
    if (!other) return {};
    return JointReasoning(*leader, *other, weighing, of_the_whole, readings).strongest_first();
}

} // namespace coilward
