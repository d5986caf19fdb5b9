#include "rewind/checked_quantity.h"

#include "rewind/temperature.h"
#include "units/engineering.h"
#include "wire/copper.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace coilward {
namespace {

bool answers(const Requirement& requirement, const Reading& reading, const std::string& coil) {
    if (reading.quantity != requirement.quantity || reading.between != Between::leads || reading.coil != coil)
        return false;
    if (reading.handling) return false; // a warmed or pressed coil is not as it will be used
    // A quality factor is the same in either circuit.
    if (requirement.circuit && reading.circuit && *requirement.circuit != *reading.circuit) return false;
    return !requirement.frequency_hz || !reading.frequency_hz ||
           std::abs(*reading.frequency_hz / *requirement.frequency_hz - 1.0) < 1e-6;
}

const Reading* value_of(Quantity quantity, const std::vector<StoredReading>& readings,
                        const std::string& coil) {
    const StoredReading* found = answer_to({.quantity = quantity}, readings, coil);
    return found != nullptr && found->reading.value && found->reading.state == State::ok ? &found->reading
                                                                                         : nullptr;
}

/// Share of the direct-current resistance in the series resistance that makes Q, by which Q follows the
/// copper. 1 where the readings do not tell.
double copper_share(const Reading& quality, const std::vector<StoredReading>& readings,
                    const std::string& coil) {
    const Reading* direct = value_of(Quantity::dc_resistance, readings, coil);
    const Reading* inductance = value_of(Quantity::inductance, readings, coil);
    if (direct == nullptr || inductance == nullptr || !quality.frequency_hz) return 1.0;
    const double loss = 2.0 * std::numbers::pi * *quality.frequency_hz * *inductance->value / *quality.value;
    return std::min(1.0, *direct->value / loss);
}

/// At 20 °C, with what the temperature's uncertainty adds.
Uncertain at_20(const Reading& reading, Uncertain as_read, const std::vector<StoredReading>& readings,
                const std::string& coil, Uncertain temperature_c) {
    const double warmer = copper_alpha_20_per_kelvin * (temperature_c.value - 20.0);
    const double per_u = copper_alpha_20_per_kelvin * temperature_c.standard_uncertainty;
    switch (reading.quantity) {
    case Quantity::dc_resistance:
        return at_20_ohm(as_read, temperature_c);
    case Quantity::ac_resistance: {
        const Reading* direct = value_of(Quantity::dc_resistance, readings, coil);
        const double copper_20 = (direct != nullptr ? *direct->value : as_read.value) / (1.0 + warmer);
        return {as_read.value - copper_20 * warmer,
                std::hypot(as_read.standard_uncertainty, copper_20 * per_u)};
    }
    case Quantity::quality_factor: {
        const double share = copper_share(reading, readings, coil);
        const double factor = 1.0 / (1.0 - share * warmer / (1.0 + warmer));
        return {as_read.value * factor,
                factor * std::hypot(as_read.standard_uncertainty, as_read.value * share * per_u)};
    }
    default:
        return as_read;
    }
}

std::string correction(const Reading& reading, const Uncertain& as_read, const Uncertain& judged,
                       Uncertain temperature_c) {
    if (temperature_c.value == 20.0) return "needs no correction at 20 °C";
    if (as_read.value == judged.value) return "does not follow the temperature";
    return fmt::format("from {} at {} to 20 °C", engineering(as_read.value, unit(reading.quantity), 5),
                       engineering(temperature_c.value, "degC", 3));
}

/// Why a reading cannot be judged; empty where it can.
std::string unfit(const StoredReading* stored, const ConfirmationRule& rule) {
    if (stored == nullptr) return "not read";
    const Reading& reading = stored->reading;
    if (reading.state != State::ok) return fmt::format("the meter showed {}", name(reading.state));
    if (!reading.value) return "no value was read";
    if (!uncertainty_of(reading, rule.bench)) return "the meter's uncertainty is not known";
    return "";
}

} // namespace

std::optional<double> uncertainty_of(const Reading& reading, const std::vector<BenchReading>& bench) {
    if (reading.standard_uncertainty) return reading.standard_uncertainty;
    for (const BenchReading& usual : bench)
        if (usual.quantity == reading.quantity && usual.between == reading.between)
            return std::hypot(usual.relative_uncertainty * *reading.value, usual.absolute_uncertainty);
    return std::nullopt;
}

const StoredReading* answer_to(const Requirement& requirement, const std::vector<StoredReading>& readings,
                               const std::string& coil) {
    const auto found = std::find_if(readings.rbegin(), readings.rend(), [&](const StoredReading& stored) {
        return answers(requirement, stored.reading, coil);
    });
    return found == readings.rend() ? nullptr : &*found;
}

Checked check(const Requirement& requirement, const std::vector<StoredReading>& readings,
              const std::string& coil, Uncertain temperature_c, const ConfirmationRule& rule) {
    Checked checked{.requirement = requirement};
    const StoredReading* stored = answer_to(requirement, readings, coil);
    if (stored != nullptr) checked.reading = *stored;
    checked.says = unfit(stored, rule);
    if (!checked.says.empty()) return checked;
    const Reading& reading = stored->reading;
    const Uncertain as_read{*reading.value, *uncertainty_of(reading, rule.bench)};
    checked.judged = at_20(reading, as_read, readings, coil, temperature_c);
    checked.says = correction(reading, as_read, checked.judged, temperature_c);
    if (!reading.standard_uncertainty) checked.says += "; uncertainty of an ordinary bench meter";
    checked.judged.standard_uncertainty =
        std::hypot(checked.judged.standard_uncertainty, requirement.limits_uncertainty);
    checked.conformity =
        conformity(checked.judged.value, checked.judged.standard_uncertainty, requirement.limits.low,
                   requirement.limits.high, rule.conformance_probability);
    return checked;
}

} // namespace coilward
