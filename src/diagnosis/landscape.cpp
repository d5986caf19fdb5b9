#include "diagnosis/landscape.h"

#include "diagnosis/model_error.h"
#include "diagnosis/resonance.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <span>

namespace coilward {
namespace {

constexpr double longest_leap = 4.0; // of a severity's logarithm: a factor of 55
constexpr double most_piece_deviations = 3.5;

/// Those at the front that one solution of the network serves.
std::span<const Probe> of_one_frequency(std::span<const Probe> probes) {
    std::size_t count = 1;
    while (count < std::min(probes.size(), port_count) &&
           probes[count].frequency_hz == probes.front().frequency_hz)
        ++count;
    return probes.first(count);
}

/// What the ports of probes of one frequency show.
void see(const CircuitUnderTest& circuit, std::span<const Probe> probes,
         std::span<ImpedanceWithGradient, port_count> seen) {
    std::array<CoilPort, port_count> ports;
    std::ranges::transform(probes, ports.begin(), &Probe::port);
    impedances_with_gradient(circuit.coil, circuit.fault, probes.front().frequency_hz,
                             std::span(ports).first(probes.size()), seen);
}

void add_temperature(Landscape::Here& result, LogOfProduct& squared_widths, const PlainAnswer& answer,
                     double temperature_c) {
    constexpr auto k = static_cast<Eigen::Index>(Unknown::temperature);
    const Judgement judgement = judge(answer, temperature_c);
    result.cost += judgement.exponent;
    squared_widths.multiply(judgement.squared_width);
    result.gradient[k] += judgement.slope;
    result.information.coil(k, k) += judgement.curvature;
}

} // namespace

Landscape::Landscape(Primitive primitive, const Component& component, const CoilPrior& prior,
                     const Evidence& evidence, double softness)
    : primitive_(primitive), component_(component), prior_(prior), evidence_(evidence),
      severity_count_(static_cast<Eigen::Index>(component.severity_count)), prior_precision_(prior.precision),
      softness_(softness), lowest_(coil_count + severity_count_), highest_(lowest_.size()) {
    for (Eigen::Index k = 0; k < lowest_.size(); ++k) {
        const Bounds bounds = bounds_of(unknown_at(component, static_cast<std::size_t>(k)));
        lowest_[k] = bounds.low;
        highest_[k] = bounds.high;
    }
    for (std::size_t s = 0; s < component.severity_count; ++s) {
        severity_parameters_[s] = static_cast<std::size_t>(parameter_of(component.severities[s].unknown));
        const SeverityPrior& severity = component.severities[s];
        log_severity_deviations_ += std::log(severity.deviation);
        if (!severity.is_piece) continue;
        const Eigen::Index k = coil_count + static_cast<Eigen::Index>(s);
        const double edge = most_piece_deviations * severity.deviation;
        lowest_[k] = std::max(lowest_[k], severity.mean - edge);
        highest_[k] = std::min(highest_[k], severity.mean + edge);
    }
}

Landscape::Here Landscape::objective(const Vector& x) const {
    Here result{log_severity_deviations_, Vector::Zero(x.size()), {prior_precision_, severity_count_}};
    LogOfProduct squared_widths;
    add_prior(result, x);
    const Values values = values_at(component_, x);
    const CircuitUnderTest circuit = circuit_of(primitive_, values);
    std::array<ImpedanceWithGradient, port_count> seen;
    for (std::span<const Probe> probes = evidence_.probes; !probes.empty();) {
        const std::span<const Probe> together = of_one_frequency(probes);
        see(circuit, together, seen);
        for (std::size_t i = 0; i < together.size(); ++i)
            add_probe(result, squared_widths, seen[i], together[i]);
        probes = probes.subspan(together.size());
    }
    for (const PlainAnswer& answer : evidence_.temperatures)
        add_temperature(result, squared_widths, answer, at(values, Unknown::temperature));
    for (const PlainAnswer& answer : evidence_.resonances)
        add_resonance(result, squared_widths, circuit, answer);
    result.cost += 0.5 * squared_widths.value();
    return result;
}

void Landscape::lift_bounds(Eigen::Index k) {
    lowest_[k] = -std::numeric_limits<double>::infinity();
    highest_[k] = std::numeric_limits<double>::infinity();
}

bool Landscape::is_held(Eigen::Index k, const Vector& x, const Vector& move) const {
    const Bounds bounds = bounds_of(unknown_at(component_, static_cast<std::size_t>(k)));
    return (x[k] <= bounds.low && move[k] < 0.0) || (x[k] >= bounds.high && move[k] > 0.0);
}

Vector Landscape::shortened(const Vector& move) const {
    double leap = 0.0;
    for (Eigen::Index s = 0; s < severity_count_; ++s)
        leap = std::max(leap, std::abs(move[coil_count + s]));
    if (leap > longest_leap) return move * (longest_leap / leap);
    return move;
}

bool Landscape::strays(const Vector& x, const Vector& move) const {
    for (Eigen::Index s = 0; s < severity_count_; ++s) {
        const SeverityPrior& severity = severity_at(s);
        if (!severity.is_piece) continue;
        const Eigen::Index k = coil_count + s;
        const double edge = most_piece_deviations * severity.deviation;
        if (std::abs(x[k] - severity.mean) >= 0.999 * edge && std::abs(x[k] + move[k] - severity.mean) > edge)
            return true;
    }
    return false;
}

Vector Landscape::point_near(const Values& start) const {
    Vector x(coil_count + severity_count_);
    for (Eigen::Index k = 0; k < x.size(); ++k)
        x[k] = at(start, unknown_at(component_, static_cast<std::size_t>(k)));
    for (Eigen::Index s = 0; s < severity_count_; ++s) {
        const SeverityPrior& severity = severity_at(s);
        if (!severity.is_piece) continue;
        double& value = x[coil_count + s];
        value = std::clamp(value, severity.mean - severity.deviation, severity.mean + severity.deviation);
    }
    return x;
}

/// All but the coil's precision, which the information begins with.
void Landscape::add_prior(Here& result, const Vector& x) const {
    const CoilPoint offset = x.head<coil_count>() - CoilPoint::Map(prior_.mean.data());
    const CoilPoint pull = prior_precision_.lazyProduct(offset);
    result.cost += 0.5 * offset.dot(pull);
    result.gradient.head<coil_count>() = pull;
    for (Eigen::Index s = 0; s < severity_count_; ++s) {
        const SeverityPrior& severity = severity_at(s);
        const double z = (x[coil_count + s] - severity.mean) / severity.deviation;
        result.cost += 0.5 * z * z;
        result.gradient[coil_count + s] = z / severity.deviation;
        result.information.corner(s, s) = 1.0 / (severity.deviation * severity.deviation);
    }
}

void Landscape::add_probe(Here& result, LogOfProduct& squared_widths, const ImpedanceWithGradient& z,
                          const Probe& probe) const {
    const double omega = 2.0 * std::numbers::pi * probe.frequency_hz;
    for (const Answer& answer : probe.answers) {
        const LookedAt look = looked_at(answer, z.impedance_ohm, omega);
        const ParameterSlopes slopes = slopes_of(look.form, z);
        const SquaredErrors& errors = squared_errors_at(probe.frequency_hz, answer.repeats_earlier);
        const double variance = model_variance(slopes, errors) + softening(answer, look.scale);
        add(result, squared_widths, judge(answer, look, variance), direction_of(slopes));
    }
}

/// What a reading's slopes by the parameters are by the unknowns: every coil's are the first parameters.
BorderedDirection Landscape::direction_of(const ParameterSlopes& slopes) const {
    static_assert(static_cast<int>(Unknown::temperature) == static_cast<int>(Parameter::temperature));
    BorderedDirection direction{CoilPoint::Map(slopes.data())};
    for (std::size_t s = 0; s < component_.severity_count; ++s)
        direction.severities[static_cast<Eigen::Index>(s)] = slopes[severity_parameters_[s]];
    return direction;
}

double Landscape::softening(const Answer& answer, Scale scale) const {
    const double softened = scale == Scale::logarithm ? softness_ : softness_ * answer.value;
    return softened * softened;
}

void Landscape::add_resonance(Here& result, LogOfProduct& squared_widths, const CircuitUnderTest& circuit,
                              const PlainAnswer& answer) const {
    // A coil without a peak cannot show one: the likelihood is that of a number ten deviations off.
    constexpr double no_peak_cost = 50.0;
    const auto resonance = resonance_near(circuit, answer.value);
    if (!resonance) {
        result.cost += no_peak_cost + std::log(answer.deviation);
        return;
    }
    ParameterSlopes slopes = resonance->log_slope;
    for (double& slope : slopes)
        slope *= resonance->frequency_hz;
    add(result, squared_widths, judge(answer, resonance->frequency_hz), direction_of(slopes));
}

void Landscape::add(Here& result, LogOfProduct& squared_widths, const Judgement& judgement,
                    const BorderedDirection& direction) const {
    result.cost += judgement.exponent;
    squared_widths.multiply(judgement.squared_width);
    result.gradient.head<coil_count>() += judgement.slope * direction.coil;
    for (Eigen::Index s = 0; s < severity_count_; ++s)
        result.gradient[coil_count + s] += judgement.slope * direction.severities[s];
    result.information.add_square(judgement.curvature, direction);
}

} // namespace coilward
