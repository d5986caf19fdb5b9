#include "diagnosis/diagnosis.h"

#include "diagnosis/comparison.h"
#include "diagnosis/estimate.h"
#include "diagnosis/next_reading.h"
#include "diagnosis/own_history.h"
#include "diagnosis/posterior.h"
#include "diagnosis/reason.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

namespace coilward {
namespace {

const CoilModel& model_of(const Rules& rules, const Examination& examination) {
    if (const CoilModel* model = rules.coil_model(examination.coil_model)) return *model;
    throw CannotDiagnose(
        fmt::format("coil_model: \"{}\" is in no file under rules/coils; \"coilward models\" lists "
                    "those that are",
                    examination.coil_model));
}

/// The coil's temperature as the thermometers say, or the prior's.
double temperature_of(const Evidence& evidence, const CoilPrior& prior) {
    if (evidence.temperatures.empty()) return at(prior.mean, Unknown::temperature);
    double sum = 0.0;
    double weights = 0.0;
    for (const PlainAnswer& answer : evidence.temperatures) {
        const double weight = 1.0 / (answer.deviation * answer.deviation);
        sum += weight * answer.value;
        weights += weight;
    }
    return sum / weights;
}

std::vector<FaultProbability> probabilities_of(const Posterior& posterior) {
    std::vector<FaultProbability> result;
    for (const FaultPosterior& p : posterior)
        result.push_back({p.fault->id, p.probability, estimates_of(p)});
    return result;
}

std::vector<std::string> notes_of(const CoilPrior& prior, const Evidence& evidence) {
    std::vector<std::string> notes;
    if (evidence.temperatures.empty())
        notes.push_back(
            fmt::format("no temperature was read: the coil is taken to be at {:.0f} °C ± 5 K, and "
                        "4 K are 1.6 % of its resistance",
                        at(prior.mean, Unknown::temperature)));
    std::ranges::copy(evidence.notes, std::back_inserter(notes));
    std::ranges::copy(prior.notes, std::back_inserter(notes));
    return notes;
}

} // namespace

Diagnosis diagnose(const Rules& rules, const Examination& examination) {
    const CoilModel& model = model_of(rules, examination);
    const OwnHistory history =
        own_history(rules, coil_prior(model, rules.allowed(model)), examination.earlier);
    const CoilPrior& prior = history.prior;
    Evidence evidence = gather(examination.readings, rules);
    mark_repeats(evidence, history.earlier);
    const Posterior posterior_of_faults = posterior(rules, prior, evidence);

    Diagnosis diagnosis;
    diagnosis.id = examination.id;
    diagnosis.coil_model = model.id;
    diagnosis.faults = probabilities_of(posterior_of_faults);
    diagnosis.verdict = diagnosis.faults.front();
    const Fault& leader = *posterior_of_faults.front().fault;
    diagnosis.decided = diagnosis.verdict.probability >= leader.decide_at;
    diagnosis.comparisons = comparisons_of(examination.readings, prior, temperature_of(evidence, prior));
    diagnosis.reasons = reasons_for(posterior_of_faults, examination.readings, evidence, prior);
    diagnosis.next = next_readings(rules, posterior_of_faults, examination.readings);
    diagnosis.advice = leader.advice;
    diagnosis.cautions = leader.cautions;
    diagnosis.notes = notes_of(prior, evidence);
    return diagnosis;
}

} // namespace coilward
