#include "diagnosis/coil_prior.h"
#include "diagnosis/prediction.h"
#include "rewind/checked_quantity.h"
#include "rewind/confirmation.h"
#include "units/engineering.h"

#include <fmt/format.h>

namespace coilward {

std::vector<Requirement> requirements_of(const CoilModel& model) {
    const std::string from = fmt::format("the coil model {}", model.id);
    std::vector<Requirement> all{
        {.quantity = Quantity::dc_resistance, .limits = model.dc_resistance_ohm, .from = from}};
    if (model.inductance_h)
        all.push_back({.quantity = Quantity::inductance,
                       .frequency_hz = model.test_frequency_hz,
                       .circuit = model.circuit,
                       .limits = *model.inductance_h,
                       .from = from});
    if (model.quality_factor)
        all.push_back({.quantity = Quantity::quality_factor,
                       .frequency_hz = model.test_frequency_hz,
                       .limits = *model.quality_factor,
                       .from = from,
                       .must_be_read = false});
    return all;
}

namespace {

/// Above it eddy currents and capacitance show too much for one middle coil to stand for all.
constexpr double highest_carried_hz = 1200.0;

std::optional<double> predicted_inductance(const CoilPrior& prior, const Requirement& requirement,
                                           double frequency_hz) {
    const Reading question{.quantity = Quantity::inductance,
                           .circuit = requirement.circuit.value_or(Circuit::series),
                           .frequency_hz = frequency_hz};
    const auto prediction = predict(question, Primitive::none, prior.mean);
    if (!prediction) return std::nullopt;
    return prediction->value;
}

void carry(Requirement& requirement, double to_hz, const CoilModel& model, const AllowedRanges& allowed) {
    const CoilPrior prior = coil_prior(model, allowed);
    const auto here = predicted_inductance(prior, requirement, *requirement.frequency_hz);
    const auto there = predicted_inductance(prior, requirement, to_hz);
    if (!here || !there || *here <= 0.0 || *there <= 0.0) return;
    const double ratio = *there / *here;
    requirement.limits = {requirement.limits.low * ratio, requirement.limits.high * ratio};
    requirement.from +=
        fmt::format(", carried from {} to {}", engineering_shortest(*requirement.frequency_hz, "Hz"),
                    engineering_shortest(to_hz, "Hz"));
    requirement.frequency_hz = to_hz;
}

} // namespace

std::vector<Requirement> at_frequencies_read(std::vector<Requirement> requirements,
                                             const std::vector<StoredReading>& readings,
                                             const std::string& coil, const CoilModel& model,
                                             const AllowedRanges& allowed) {
    for (Requirement& requirement : requirements) {
        if (requirement.quantity != Quantity::inductance || !requirement.frequency_hz) continue;
        if (answer_to(requirement, readings, coil) != nullptr) continue;
        Requirement anywhere = requirement;
        anywhere.frequency_hz.reset();
        std::vector<StoredReading> low;
        for (const StoredReading& stored : readings)
            if (stored.reading.frequency_hz && *stored.reading.frequency_hz <= highest_carried_hz)
                low.push_back(stored);
        if (const StoredReading* other = answer_to(anywhere, low, coil))
            carry(requirement, *other->reading.frequency_hz, model, allowed);
    }
    return requirements;
}

std::vector<Requirement> requirements_of(const AsItWas& was, double per_cent) {
    const std::string from = fmt::format("as it was on {}", text_of(was.at).substr(0, 10));
    const double share = per_cent / 100.0;
    const auto around = [&](const Uncertain& former) {
        return Range{former.value * (1.0 - share), former.value * (1.0 + share)};
    };
    std::vector<Requirement> all{{.quantity = Quantity::dc_resistance,
                                  .limits = around(was.resistance_20_ohm),
                                  .limits_uncertainty = was.resistance_20_ohm.standard_uncertainty,
                                  .from = from}};
    if (was.inductance_h)
        all.push_back({.quantity = Quantity::inductance,
                       .frequency_hz = was.inductance_frequency_hz,
                       .limits = around(*was.inductance_h),
                       .limits_uncertainty = was.inductance_h->standard_uncertainty,
                       .from = from});
    return all;
}

} // namespace coilward
