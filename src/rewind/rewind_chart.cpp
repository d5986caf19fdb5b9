#include "rewind/rewind_chart.h"

#include "rewind/checked_quantity.h"
#include "rewind/temperature.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {
namespace {

/// The model's own requirement of the quantity, or one without limits.
Requirement requirement_for(const CoilModel& model, Quantity quantity) {
    for (Requirement& requirement : requirements_of(model))
        if (requirement.quantity == quantity) return requirement;
    const double infinity = std::numeric_limits<double>::infinity();
    return {.quantity = quantity, .limits = {-infinity, infinity}};
}

/// The value of the coil on the visit; nothing where it was not read or cannot be used.
std::optional<Uncertain> value_on(const std::vector<StoredReading>& readings, const std::string& coil,
                                  const Requirement& requirement, const ConfirmationRule& rule) {
    const Checked checked =
        check(requirement, readings, coil, temperature_in(readings).value_or(usual_room_c), rule);
    if (!(checked.judged.standard_uncertainty > 0.0)) return std::nullopt;
    return checked.judged;
}

void gather(const History& history, const Pickup& pickup, const std::string& coil,
            const Requirement& requirement, const ConfirmationRule& rule, RewindChart& chart) {
    for (const Visit& visit : history.visits_of(pickup.id)) {
        if (!visit.rewound) continue;
        const auto readings = current_readings(history.readings_of(visit.id));
        if (const auto value = value_on(readings, coil, requirement, rule))
            chart.coils.push_back({pickup, coil, visit.at, *value});
        else
            ++chart.without_reading;
    }
}

/// The true values' spread is what is seen less what the measurement adds.
std::optional<GlobalRisk> risk_of(const RewindChart& chart, Interval limits, double conformance_probability) {
    const double made = chart.chart.deviation * chart.chart.deviation -
                        chart.measurement_uncertainty * chart.measurement_uncertainty;
    const double guard = guard_band(chart.measurement_uncertainty, conformance_probability);
    const Interval acceptance{limits.low + guard, limits.high - guard};
    if (!(made > 0.0) || !(acceptance.low < acceptance.high)) return std::nullopt;
    return global_risk({chart.chart.mean, std::sqrt(made)}, chart.measurement_uncertainty, limits,
                       acceptance);
}

} // namespace

RewindChart rewind_chart(const History& history, const CoilModel& model, Quantity quantity,
                         const std::vector<BenchReading>& bench, double conformance_probability) {
    const Requirement requirement = requirement_for(model, quantity);
    RewindChart chart{.coil_model = model.id, .quantity = quantity, .frequency_hz = requirement.frequency_hz};
    const ConfirmationRule rule{.bench = bench};
    for (const Pickup& pickup : history.pickups(model.id))
        for (const PickupCoil& coil : pickup.coils)
            if (coil.coil_model == model.id) gather(history, pickup, coil.name, requirement, rule, chart);
    std::ranges::stable_sort(chart.coils, {}, &RewoundCoil::at);
    if (chart.coils.size() < 2)
        throw std::invalid_argument(fmt::format(
            "{} rewinds of {} with a reading of {} are in the history; a chart needs two or more, better "
            "twenty",
            chart.coils.size(), model.id, name(quantity)));
    std::vector<double> values;
    double squares = 0.0;
    for (const RewoundCoil& coil : chart.coils) {
        values.push_back(coil.value.value);
        squares += coil.value.standard_uncertainty * coil.value.standard_uncertainty;
    }
    chart.chart = control_chart(values);
    chart.signs = drift_signs(chart.chart);
    chart.measurement_uncertainty = std::sqrt(squares / static_cast<double>(values.size()));
    if (std::isfinite(requirement.limits.low) || std::isfinite(requirement.limits.high)) {
        chart.limits = Interval{requirement.limits.low, requirement.limits.high};
        chart.risk = risk_of(chart, *chart.limits, conformance_probability);
    }
    return chart;
}

} // namespace coilward
