#include "diagnosis/another_model.h"

#include "diagnosis/healthy_mode.h"
#include "diagnosis/log_sum.h"
#include "metrology/log_normal.h"

#include <algorithm>
#include <cmath>

namespace coilward {
namespace {

constexpr double resistance_by_temperature = 0.04; // of a workshop, relative

/// A healthy coil's resistance at some temperature of a workshop.
LogNormal resistance_of(const CoilModel& model) {
    return product(log_normal(model.dc_resistance_ohm), {1.0, resistance_by_temperature});
}

/// The answer of that quantity across the leads, if it is a number.
const Answer* number_across_leads(const Evidence& evidence, Quantity quantity, double frequency_hz) {
    for (const Probe& probe : evidence.probes)
        for (const Answer& answer : probe.answers)
            if (probe.port == CoilPort::leads && probe.frequency_hz == frequency_hz &&
                answer.quantity == quantity && answer.state == State::ok && answer.value != 0.0)
                return &answer;
    return nullptr;
}

// Beyond this many deviations from a model's range a reading is not of a healthy coil of it: what spares most
// models a search.
constexpr double most_deviations = 4.0;

bool may_have_resistance(const CoilModel& model, const Evidence& evidence) {
    const Answer* read = number_across_leads(evidence, Quantity::dc_resistance, 0.0);
    return read && std::abs(deviations_to(resistance_of(model), std::abs(read->value))) < most_deviations;
}

/// By how many deviations the inductance is out of the model's range; nothing where it was not read as the
/// model gives it.
std::optional<double> inductance_deviations(const CoilModel& model, const Evidence& evidence) {
    if (!model.inductance_h) return std::nullopt;
    const Answer* read = number_across_leads(evidence, Quantity::inductance, model.test_frequency_hz);
    if (!read || read->circuit != model.circuit) return std::nullopt;
    return std::abs(deviations_to(log_normal(*model.inductance_h), std::abs(read->value)));
}

/// What the LCR meter said, if the ohmmeter was on another coil.
Evidence without_resistance(Evidence evidence) {
    for (Probe& probe : evidence.probes)
        if (probe.port == CoilPort::leads && probe.frequency_hz == 0.0) probe.answers.clear();
    std::erase_if(evidence.probes, [](const Probe& probe) { return probe.answers.empty(); });
    return evidence;
}

/// ln of the density of the resistance among healthy coils of a model.
double log_density_of_resistance(const CoilModel& model, double read_ohm) {
    const LogNormal resistance = resistance_of(model);
    return log_normal_density(std::log(read_ohm), std::log(resistance.median), resistance.deviation) -
           std::log(read_ohm);
}

double log_evidence_of_healthy(const Rules& rules, const CoilModel& model, const Evidence& evidence,
                               double hopeless) {
    const CoilPrior prior = coil_prior(model, rules.allowed(model));
    const double log_prior_volume = half_log_determinant(prior.precision);
    const Mode mode = healthy_mode(prior, evidence, hopeless - log_prior_volume);
    return mode.abandoned ? never : mode.log_evidence + log_prior_volume;
}

/// Adds to `another` what a model explains.
void add(AnotherModel& another, double& best, const CoilModel& model, double log_evidence) {
    another.log_evidence = log_sum(another.log_evidence, log_evidence);
    if (log_evidence <= best) return;
    best = log_evidence;
    another.best = &model;
}

} // namespace

AnotherModel healthy_of_another_model(const Rules& rules, const CoilModel& named, const Evidence& evidence,
                                      double hopeless) {
    AnotherModel another;
    const Answer* resistance = number_across_leads(evidence, Quantity::dc_resistance, 0.0);
    if (!resistance || resistance->value < 0.0 || rules.coil_models.size() < 2) return another;
    const Evidence by_lcr_meter = without_resistance(evidence);
    const double named_resistance = log_density_of_resistance(named, resistance->value);
    double best = never;
    for (const CoilModel& model : rules.coil_models) {
        if (model.id == named.id) continue;
        const auto inductance = inductance_deviations(model, evidence);
        if (may_have_resistance(model, evidence) && inductance.value_or(0.0) < most_deviations)
            add(another, best, model, log_evidence_of_healthy(rules, model, evidence, hopeless));
        if (inductance && *inductance < most_deviations)
            add(another, best, model,
                named_resistance +
                    log_evidence_of_healthy(rules, model, by_lcr_meter, hopeless - named_resistance));
    }
    another.log_evidence -= std::log(2.0 * static_cast<double>(rules.coil_models.size() - 1));
    return another;
}

} // namespace coilward
