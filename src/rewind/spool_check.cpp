#include "rewind/spool_check.h"

#include "metrology/correlated.h"
#include "wire/copper.h"
#include "wire/gauge.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr double copper_kg_per_m3 = 8890.0; // IEC 60028

/// Resistance, temperature and length, or mass and the enamel's share of it.
enum SpoolInput : std::size_t { resistance, temperature, length_or_mass, enamel_share, input_count };

void require_positive(double number, const char* what) {
    if (!(number > 0.0)) throw std::invalid_argument(fmt::format("{} must be above 0", what));
}

void require_measured(const WirePiece& piece) {
    if (piece.readings.empty()) throw std::invalid_argument("a resistance is needed");
    if (piece.length_m.has_value() == piece.mass_kg.has_value())
        throw std::invalid_argument("either the length or the mass of the piece is needed");
    for (const WireReading& reading : piece.readings)
        require_positive(reading.resistance_ohm, "the resistance");
    require_positive(piece.length_m ? piece.length_m->value : piece.mass_kg->value,
                     piece.length_m ? "the length" : "the mass");
}

Correlated inputs_of(const WirePiece& piece) {
    const Uncertain size = piece.length_m ? *piece.length_m : *piece.mass_kg;
    const std::array<double, input_count> values{piece.readings.front().resistance_ohm,
                                                 piece.readings.front().temperature_c, size.value,
                                                 piece.enamel_share.value};
    const std::array<double, input_count> uncertainties{
        piece.resistance_uncertainty_ohm, piece.temperature_uncertainty_c, size.standard_uncertainty,
        piece.enamel_share.standard_uncertainty};
    Correlated inputs = independent(values, uncertainties);
    if (piece.readings.size() < 2) return inputs;
    std::vector<std::vector<double>> observations;
    for (const WireReading& reading : piece.readings)
        observations.push_back({reading.resistance_ohm, reading.temperature_c});
    const Correlated means = means_of(observations);
    for (std::size_t i = 0; i < means.size(); ++i) {
        inputs.values[i] = means.values[i];
        for (std::size_t j = 0; j < means.size(); ++j)
            inputs.covariance[i * input_count + j] += means.covariance_of(i, j);
    }
    return inputs;
}

/// With r = ρ/A ohm per metre and δ·A kilogram of copper per metre, R / m = r² / (ρ·δ).
double ohm_per_metre(const std::vector<double>& inputs, bool by_length) {
    const double at_20 = resistance_at_20_ohm(inputs[resistance], inputs[temperature]);
    if (by_length) return at_20 / inputs[length_or_mass];
    const double copper_kg = inputs[length_or_mass] * (1.0 - inputs[enamel_share]);
    return std::sqrt(at_20 / copper_kg * copper_kg_per_m3 / iacs_conductivity_s_per_m);
}

std::vector<double> sensitivities_of(const Correlated& inputs, bool by_length) {
    std::vector<double> sensitivities(inputs.size());
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        const double step = 1e-4 * std::max(std::abs(inputs.values[i]), 1e-6);
        auto more = inputs.values;
        auto less = inputs.values;
        more[i] += step;
        less[i] -= step;
        sensitivities[i] = (ohm_per_metre(more, by_length) - ohm_per_metre(less, by_length)) / (2.0 * step);
    }
    return sensitivities;
}

} // namespace

Uncertain ohm_per_metre_of(const WirePiece& piece, double* correlation) {
    require_measured(piece);
    const bool by_length = piece.length_m.has_value();
    const Correlated inputs = inputs_of(piece);
    if (correlation != nullptr) *correlation = inputs.correlation(resistance, temperature);
    const std::vector<std::vector<double>> sensitivities{sensitivities_of(inputs, by_length)};
    const Correlated result = propagated(inputs, {ohm_per_metre(inputs.values, by_length)}, sensitivities);
    return {result.values[0], result.standard_uncertainty(0)};
}

SpoolCheck check_spool(const WirePiece& piece, int claimed_awg, double conformance_probability) {
    SpoolCheck check{.claimed_awg = claimed_awg};
    check.ohm_per_metre_20 = ohm_per_metre_of(piece, &check.correlation);
    const auto& [measured, u] = check.ohm_per_metre_20;
    const auto claimed = awg_resistance_limits_ohm_per_m(claimed_awg);
    if (!claimed)
        throw std::invalid_argument(fmt::format(
            "the limits of {} AWG are not known here; give a gauge from 24 to 48", awg_name(claimed_awg)));
    check.conformity = conformity(measured, u, claimed->minimum, claimed->maximum, conformance_probability);
    check.none_of_them = 1.0;
    for (int awg = claimed_awg - 2; awg <= claimed_awg + 2; ++awg) {
        const auto limits = awg_resistance_limits_ohm_per_m(awg);
        if (!limits) continue;
        const double probability = probability_within(measured, u, limits->minimum, limits->maximum);
        check.candidates.push_back({awg, *limits, measured / limits->nominal, probability});
        check.none_of_them = std::max(0.0, check.none_of_them - probability);
    }
    return check;
}

} // namespace coilward
