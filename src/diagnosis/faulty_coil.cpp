#include "diagnosis/faulty_coil.h"

#include "diagnosis/coil_prior.h"
#include "diagnosis/hypothesis.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

#include <fmt/format.h>

namespace coilward {
namespace {

std::string names_of(const std::vector<Severity>& severities) {
    std::vector<std::string> names;
    for (const Severity& severity : severities)
        names.push_back(severity.name);
    return names.empty() ? "it has none" : fmt::format("it has {}", fmt::join(names, ", "));
}

/// The measure of a severity that a person gave.
double measure_of(const Fault& fault, const std::string& name, double number) {
    if (std::ranges::find(fault.severities, name, &Severity::name) == fault.severities.end())
        throw std::invalid_argument(
            fmt::format("{} has no severity \"{}\"; {}", fault.id, name, names_of(fault.severities)));
    const Unknown unknown = *unknown_named(name);
    const double measure = to_measure(unknown, number);
    const Bounds bounds = bounds_of(unknown);
    if (!std::isfinite(measure) || measure < bounds.low || measure > bounds.high)
        throw std::invalid_argument(fmt::format(
            "{} = {} is impossible; expected a number {}", name, number,
            is_linear(unknown)           ? fmt::format("from {} to {}", bounds.low, bounds.high)
            : std::isfinite(bounds.high) ? fmt::format("above 0, up to {:.3g}", std::exp(bounds.high))
                                         : std::string("above 0")));
    return measure;
}

} // namespace

CircuitUnderTest faulty_coil(const Rules& rules, const CoilModel& model, const Fault& fault,
                             const Severities& severities, double temperature_c) {
    if (fault.primitive == Primitive::unlisted)
        throw std::invalid_argument(
            fmt::format("{} is whatever nobody listed: no circuit stands for it", fault.id));
    const CoilPrior prior = coil_prior(model, rules.allowed(model));
    Values values = hypothesis_of(fault, prior).roaming.fixed; // a severity's place in it is its mean
    at(values, Unknown::temperature) = temperature_c;
    for (const auto& [name, number] : severities) {
        const double measure = measure_of(fault, name, number);
        at(values, *unknown_named(name)) = measure;
    }
    return circuit_of(fault.primitive, values);
}

} // namespace coilward
