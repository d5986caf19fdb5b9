#include "diagnosis/coil_finding.h"

#include "diagnosis/change_since.h"
#include "diagnosis/coil_temperature.h"
#include "diagnosis/coils_alike.h"
#include "diagnosis/comparison.h"
#include "diagnosis/estimate.h"
#include "diagnosis/mixed_posterior.h"
#include "diagnosis/next_reading.h"
#include "diagnosis/reason.h"
#include "toml/utf8.h"

#include <algorithm>
#include <functional>
#include <iterator>
#include <utility>

#include <fmt/format.h>

namespace coilward {
namespace {

const CoilModel& model_named(const Rules& rules, const std::string& place, const std::string& id) {
    if (const CoilModel* model = rules.coil_model(id)) return *model;
    throw CannotDiagnose(fmt::format("{}: \"{}\" is in no file under rules/coils; \"coilward models\" lists "
                                     "those that are",
                                     place, shortened(id)));
}

/// With their models found.
std::vector<CoilMadeAlike> coils_made_alike(const Rules& rules, const CoilModel& examined,
                                            const std::vector<AlikeCoil>& coils) {
    std::vector<CoilMadeAlike> found;
    for (const AlikeCoil& coil : coils) {
        const CoilModel* model =
            coil.coil_model.empty() ? &examined : &model_named(rules, "alike: coil_model", coil.coil_model);
        found.push_back({coil.as, coil.healthy, model == &examined, coil_prior(*model, rules.allowed(*model)),
                         gather(coil.readings, rules)});
    }
    return found;
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

/// Readings of a coil that was handled are no measure of it.
std::vector<EarlierExamination> at_rest(std::vector<EarlierExamination> earlier) {
    for (EarlierExamination& examination : earlier)
        std::erase_if(examination.readings, std::not_fn(is_at_rest));
    return earlier;
}

/// The other model of which this may be a healthy coil.
const CoilModel* mistaken_for(const Posterior& posterior) {
    constexpr double worth_saying = 0.01;
    for (const FaultPosterior& p : posterior)
        if (p.fits && p.probability >= worth_saying) return p.fits;
    return nullptr;
}

/// Believes the set only as far as it foretells the readings, beside what follows without it.
void doubt_the_set(CoilFinding& finding, OwnHistory without, Posterior posterior_without) {
    // Owners change pickups, and dealers make sets. Estimate, no published source.
    constexpr double chance_of_a_set = 0.8;
    MixedPosterior both = mixed(std::move(finding.posterior), chance_of_a_set, std::move(posterior_without));
    finding.posterior = std::move(both.posterior);
    if (both.chance_of_first >= 0.5) return;
    without.prior.notes.emplace_back(
        "the coils that are taken for its set say little: it was hardly made with them");
    finding.history = std::move(without);
}

} // namespace

CoilFinding finding_of(const Rules& rules, const Examination& examination) {
    const CoilModel& model = model_named(rules, "coil_model", examination.coil_model);
    const CoilPrior of_the_model = coil_prior(model, rules.allowed(model));
    CoilFinding finding{.model = &model, .readings = examination.readings};
    finding.by_use = by_use(examination.readings, rules);
    finding.evidence = gather(finding.by_use.at_rest, rules);
    const auto history_beside = [&](const std::vector<AlikeCoil>& alike) {
        return own_history(rules, prior_beside(of_the_model, coils_made_alike(rules, model, alike)),
                           at_rest(examination.earlier));
    };
    const auto posterior_by = [&](const OwnHistory& history) {
        return posterior(rules, history.prior, finding.evidence, history.visits.empty() ? &model : nullptr);
    };
    finding.history = history_beside(examination.alike);
    mark_repeats(finding.evidence, finding.history.visits);
    finding.posterior = posterior_by(finding.history);
    std::vector<AlikeCoil> others = examination.alike;
    if (std::erase_if(others, [](const AlikeCoil& coil) { return coil.as == Kinship::set; }) > 0) {
        OwnHistory without = history_beside(others);
        Posterior posterior_without = posterior_by(without);
        doubt_the_set(finding, std::move(without), std::move(posterior_without));
    }
    weigh(finding.posterior, finding.by_use);
    return finding;
}

Diagnosis diagnosis_of(const Rules& rules, const CoilFinding& finding) {
    const CoilPrior& prior = finding.history.prior;
    const Fault& leader = *finding.posterior.front().fault;
    Diagnosis diagnosis;
    diagnosis.coil_model = finding.model->id;
    diagnosis.faults = probabilities_of(finding.posterior);
    diagnosis.verdict = diagnosis.faults.front();
    diagnosis.decided = diagnosis.verdict.probability >= leader.decide_at;
    diagnosis.place = place_in_winding(finding.posterior.front());
    diagnosis.in_turns = in_turns(finding.posterior.front(), *finding.model);
    diagnosis.polarity = polarity_finding(finding.readings, nullptr);
    const CoilTemperature temperature = coil_temperature(finding.evidence, prior);
    diagnosis.comparisons = comparisons_of(finding.by_use.at_rest, prior, temperature.degrees_c, rules);
    diagnosis.reasons = reasons_for(finding, temperature.degrees_c);
    add_changes(diagnosis.reasons, finding.by_use.at_rest, temperature, finding.history, rules);
    diagnosis.next = next_readings(rules, finding.posterior, finding.readings);
    diagnosis.advice = leader.advice;
    diagnosis.cautions = leader.cautions;
    diagnosis.notes = notes_of(prior, finding.evidence);
    std::ranges::copy(finding.by_use.notes, std::back_inserter(diagnosis.notes));
    if (const CoilModel* fits = mistaken_for(finding.posterior))
        diagnosis.notes.push_back(
            fmt::format("the readings, or those of the LCR meter, are those of a healthy "
                        "\"{}\" ({}): check which coil this is",
                        fits->title, fits->id));
    return diagnosis;
}

} // namespace coilward
