#include "report/confirmation_words.h"

#include "report/verdict_words.h"
#include "units/engineering.h"

#include <cmath>

#include <fmt/format.h>

namespace coilward {

std::string decision_in_capitals(Decision decision) {
    switch (decision) {
    case Decision::pass:
        return "PASS";
    case Decision::fail:
        return "FAIL";
    case Decision::measure_better:
        return "MEASURE BETTER";
    }
    return "";
}

std::string title_of(const Requirement& requirement) {
    return describe({.quantity = requirement.quantity,
                     .circuit = requirement.circuit,
                     .frequency_hz = requirement.frequency_hz});
}

std::string limits_in_words(const Requirement& requirement) {
    const auto& [low, high] = requirement.limits;
    const auto symbol = unit(requirement.quantity);
    if (std::isinf(high)) return "at least " + engineering(low, symbol);
    if (std::isinf(low)) return "at most " + engineering(high, symbol);
    return engineering_range(low, high, symbol, 4);
}

std::string judged_in_words(const Checked& checked) {
    if (checked.judged.value == 0.0) return "–";
    return engineering_with_uncertainty(checked.judged.value, checked.judged.standard_uncertainty,
                                        unit(checked.requirement.quantity));
}

std::string probability_in_words(const Checked& checked) {
    return checked.judged.value == 0.0 ? "–" : percent(checked.conformity.probability_within);
}

std::string rule_in_words(const ConfirmationRule& rule) {
    const double p = rule.conformance_probability;
    return fmt::format(
        "Pass where the value at 20 °C lies inside of its limits by a guard band of {:.2f} standard "
        "uncertainties or more, fail where it lies outside by more than that, else measure better "
        "(JCGM 106:2012, 8.3; at the edge of passing, {:g} % that it is inside).",
        guard_band(1.0, p), 100.0 * p);
}

std::string temperature_in_words(const Confirmation& confirmation) {
    const auto& [value, u] = confirmation.temperature_c;
    const char* how = confirmation.temperature_was_read ? "read during the visit"
                      : confirmation.rule.temperature_c ? "told"
                                                        : "nobody read one: a usual room";
    return fmt::format("{}, {}", engineering_with_uncertainty(value, u, "degC"), how);
}

std::string subject_in_words(const Confirmation& confirmation) {
    std::string words = fmt::format("Pickup {}: {}", confirmation.pickup.number, confirmation.pickup.name);
    if (!confirmation.coil.empty()) words += fmt::format(", the {} coil", confirmation.coil);
    return words;
}

std::string source_of(const StoredReading& stored) {
    if (stored.meter.empty()) return "typed in";
    return stored.port.empty() ? stored.meter : fmt::format("{} on {}", stored.meter, stored.port);
}

} // namespace coilward
