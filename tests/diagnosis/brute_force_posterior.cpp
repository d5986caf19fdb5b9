#include "diagnosis/brute_force_posterior.h"

#include "diagnosis/answer_likelihood.h"
#include "diagnosis/coil_prior.h"
#include "diagnosis/evidence.h"
#include "diagnosis/hypothesis.h"
#include "diagnosis/model_error.h"
#include "diagnosis/unlisted.h"

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include <Eigen/Cholesky>

namespace coilward::testing {
namespace {

/// −ln of the density of all numbers and states that follow from the impedance, and of the temperatures.
double cost_of(const CircuitUnderTest& circuit, const Values& values, const Evidence& evidence) {
    double cost = 0.0;
    for (const Probe& probe : evidence.probes) {
        const auto z = impedance_with_gradient(circuit.coil, circuit.fault, probe.port, probe.frequency_hz);
        for (const Answer& answer : probe.answers) {
            const LookedAt look =
                looked_at(answer, z.impedance_ohm, 2.0 * std::numbers::pi * probe.frequency_hz);
            const double variance = model_variance(
                slopes_of(look.form, z), squared_errors_at(probe.frequency_hz, answer.repeats_earlier));
            cost += judge(answer, look, variance).cost();
        }
    }
    for (const PlainAnswer& answer : evidence.temperatures)
        cost += judge(answer, at(values, Unknown::temperature)).cost();
    return cost;
}

/// What a fault file says of the kick test, and what a series resistance takes of the kick.
double chance_of_kicks(const Fault& fault, const Values& values, const Evidence& evidence) {
    double seen = 1.0;
    if (const auto across = fault.kick_read_across_ohm)
        seen = *across / (*across + std::exp(at(values, Unknown::series_resistance)));
    double chance = 1.0;
    for (const Polarity polarity : evidence.polarities)
        chance *= polarity == Polarity::as_expected ? seen * fault.polarity.as_expected
                  : polarity == Polarity::reversed  ? seen * fault.polarity.reversed
                                                    : 1.0 - seen * (1.0 - fault.polarity.none);
    return chance;
}

/// What a fault file says of the steadiness of readings.
double chance_of_steadiness(const Fault& fault, const Evidence& evidence) {
    if (evidence.any_unstable) return fault.unstable_chance;
    return evidence.any_steady ? 1.0 - fault.unstable_chance : 1.0;
}

/// Draws coils with one fault from its prior.
class Draws {
public:
    Draws(const Fault& fault, const CoilPrior& prior)
        : hypothesis_(hypothesis_of(fault, prior)), prior_(prior), root_(prior.precision) {
        std::vector<double> weights;
        for (std::size_t i = 0; i < component_count(hypothesis_); ++i)
            weights.push_back(std::exp(components_.emplace_back(component_at(hypothesis_, i)).log_weight));
        component_ = std::discrete_distribution<std::size_t>(weights.begin(), weights.end());
    }

    /// One that is physically possible.
    Values next(Chance& chance) {
        for (;;) {
            const Values values = any(chance);
            if (is_possible(values)) return values;
        }
    }

private:
    Values any(Chance& chance) {
        const Component& component = components_[component_(chance)];
        Values values = component.fixed;
        Vector normal(static_cast<Eigen::Index>(coil_unknown_count));
        for (double& each : normal)
            each = normal_(chance);
        // precision = L Lᵀ, so L⁻ᵀ z has its inverse for a covariance.
        const Vector offset = root_.matrixU().solve(normal);
        for (std::size_t k = 0; k < coil_unknown_count; ++k)
            values[k] = prior_.mean[k] + offset[static_cast<Eigen::Index>(k)];
        for (std::size_t s = 0; s < component.severity_count; ++s) {
            const SeverityPrior& severity = component.severities[s];
            at(values, severity.unknown) = severity.mean + severity.deviation * normal_(chance);
        }
        return values;
    }

    bool is_possible(const Values& values) const {
        for (const Axis& axis : hypothesis_.axes) {
            const Bounds bounds = bounds_of(axis.unknown);
            const double value = at(values, axis.unknown);
            if (value < bounds.low || value > bounds.high) return false;
        }
        return true;
    }

    Hypothesis hypothesis_;
    std::vector<Component> components_; ///< made once: a draw is to cost no more than it must
    const CoilPrior& prior_;
    Eigen::LLT<Matrix> root_;
    std::discrete_distribution<std::size_t> component_;
    std::normal_distribution<double> normal_;
};

} // namespace

double evidence_by_draws(const Fault& fault, const CoilPrior& prior, const Evidence& evidence,
                         std::size_t draws, Chance& chance) {
    Draws coils(fault, prior);
    double sum = 0.0;
    for (std::size_t n = 0; n < draws; ++n) {
        const Values values = coils.next(chance);
        sum += chance_of_kicks(fault, values, evidence) *
               std::exp(-cost_of(circuit_of(fault.primitive, values), values, evidence));
    }
    return sum / static_cast<double>(draws);
}

std::map<std::string, double> brute_force_posterior(const Rules& rules, const Examination& examination,
                                                    std::size_t draws_a_fault, std::uint64_t seed) {
    const CoilModel& model = *rules.coil_model(examination.coil_model);
    const CoilPrior prior = coil_prior(model, rules.allowed(model));
    const Evidence evidence = gather(examination.readings, rules);
    Chance chance(seed);
    std::map<std::string, double> weights;
    double whole = 0.0;
    for (const Fault& fault : rules.faults) {
        const double density = fault.primitive == Primitive::unlisted
                                   ? std::exp(log_evidence_unlisted(prior, evidence))
                                   : chance_of_steadiness(fault, evidence) *
                                         evidence_by_draws(fault, prior, evidence, draws_a_fault, chance);
        whole += weights[fault.id] = fault.prior * density;
    }
    for (auto& [fault, weight] : weights)
        weight /= whole;
    return weights;
}

} // namespace coilward::testing
