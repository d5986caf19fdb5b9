#include "coil/impedance.h"

#include "coil/elements.h"
#include "coil/ladder.h"
#include "coil/mean_turn_current.h"

namespace coilward {
namespace {

using Complex = std::complex<double>;
using Gradient = decltype(ImpedanceWithGradient::derivative);

Runs runs_of(const NoFault&) {
    return {};
}

Runs runs_of(const Load&) {
    return {};
}

Runs runs_of(const Bridge& bridge) {
    return {2, {1.0 - bridge.share, bridge.share}, {-1.0, 1.0}, bridge.leakage};
}

Runs runs_of(const SeriesElement& element) {
    return {2, {element.position, 1.0 - element.position}, {1.0, -1.0}};
}

Runs runs_of(const Leak& leak) {
    return {2, {leak.position, 1.0 - leak.position}, {1.0, -1.0}};
}

template <typename Scalar>
FaultBranches<Scalar> branches_of(const NoFault&, double) {
    return {};
}

template <typename Scalar>
FaultBranches<Scalar> branches_of(const Bridge& bridge, double) {
    return {.across_run_1 = 1.0 / bridge.resistance_ohm};
}

template <typename Scalar>
FaultBranches<Scalar> branches_of(const SeriesElement& element, double omega) {
    return {.gap = 1.0 / element.resistance_ohm + times_j<Scalar>(omega * element.capacitance_f)};
}

template <typename Scalar>
FaultBranches<Scalar> branches_of(const Leak& leak, double) {
    return {.inner_to_frame = 1.0 / leak.resistance_ohm};
}

template <typename Scalar>
FaultBranches<Scalar> branches_of(const Load& load, double omega) {
    return {.across_leads = load_siemens<Scalar>(load, omega)};
}

Complex& at(Gradient& gradient, Parameter parameter) {
    return gradient[static_cast<std::size_t>(parameter)];
}

/// Sums of squares over the runs, each with its `part` of all turns.
template <typename Scalar>
struct Squares {
    Scalar current;       // Σ part · current²
    Scalar frame_voltage; // Σ part · mean of (voltage to the frame)² at both ends
    Scalar flux;          // Σ part · current, which every turn links: not a square
};

template <typename Scalar>
Squares<Scalar> squares_over(const std::array<double, 2>& parts, const Solution<Scalar>& s) {
    Squares<Scalar> sums{};
    for (std::size_t i = 0; i < 2; ++i) {
        sums.current += parts[i] * s.current[i] * s.current[i];
        sums.frame_voltage +=
            0.5 * parts[i] * (s.from_frame[i] * s.from_frame[i] + s.to_frame[i] * s.to_frame[i]);
        sums.flux += parts[i] * s.current[i];
    }
    return sums;
}

/// (current_0 − current_1)², which drives the flux that leaks between the runs.
template <typename Scalar>
Scalar leaked_square(const Solution<Scalar>& s) {
    const Scalar difference = s.current[0] - s.current[1];
    return difference * difference;
}

/// Derivatives by what every coil has.
template <typename Scalar>
void add_coil_gradient(Gradient& g, const Runs& runs, const Elements<Scalar>& e, const Solution<Scalar>& s) {
    const Squares<Scalar> squares = squares_over(runs.share, s);
    const Scalar by_flux = squares.flux * squares.flux;
    const Scalar leaked = runs.leakage * runs.share[0] * runs.share[1] * leaked_square(s);
    const Scalar resistive = squares.current * e.resistance_ohm;
    const Scalar inductive = (by_flux + leaked) * e.coupled_ohm + by_flux * e.eddy_ohm;
    at(g, Parameter::turns) = resistive + 2.0 * inductive;
    at(g, Parameter::ohm_per_turn) = resistive;
    at(g, Parameter::henry_per_turn2) = inductive;
    at(g, Parameter::eddy_share) = by_flux * e.eddy_ohm;
    at(g, Parameter::eddy_time) = by_flux * e.eddy_ohm_per_log_time;
    at(g, Parameter::temperature) = squares.current * e.resistance_per_kelvin;
    const Scalar v = s.across_leads(runs);
    at(g, Parameter::self_capacitance) = -v * v * e.self_siemens;
    at(g, Parameter::frame_capacitance) = -squares.frame_voltage * e.frame_siemens;
    at(g, Parameter::frame_insulation) = squares.frame_voltage * e.insulation_siemens;
}

/// Derivative by the fault's place or size, on which every run depends.
template <typename Scalar>
Scalar growth_gradient(const Runs& runs, const Elements<Scalar>& e, const Solution<Scalar>& s) {
    const Squares<Scalar> growing = squares_over(runs.growth, s);
    const Scalar flux = runs.share[0] * s.current[0] + runs.share[1] * s.current[1];
    const double leaking = runs.leakage * (runs.growth[0] * runs.share[1] + runs.share[0] * runs.growth[1]);
    return growing.current * e.resistance_ohm + 2.0 * flux * growing.flux * (e.coupled_ohm + e.eddy_ohm) +
           leaking * leaked_square(s) * e.coupled_ohm -
           growing.frame_voltage * (e.frame_siemens + e.insulation_siemens);
}

template <typename Scalar>
void add_fault_gradient(Gradient&, const NoFault&, const Runs&, const Elements<Scalar>&,
                        const Solution<Scalar>&) {}

template <typename Scalar>
void add_fault_gradient(Gradient& g, const Bridge& bridge, const Runs& runs, const Elements<Scalar>& e,
                        const Solution<Scalar>& s) {
    at(g, Parameter::bridge_share) = bridge.share * growth_gradient(runs, e, s);
    at(g, Parameter::bridge_resistance) =
        s.run_1_shunt_current * s.run_1_shunt_current * bridge.resistance_ohm;
    at(g, Parameter::bridge_leakage) =
        bridge.leakage * bridge.share * (1.0 - bridge.share) * leaked_square(s) * e.coupled_ohm;
}

template <typename Scalar>
void add_fault_gradient(Gradient& g, const SeriesElement& element, const Runs& runs,
                        const Elements<Scalar>& e, const Solution<Scalar>& s) {
    const Scalar square = s.gap_voltage * s.gap_voltage;
    at(g, Parameter::position) = growth_gradient(runs, e, s);
    at(g, Parameter::series_resistance) = square / element.resistance_ohm;
    at(g, Parameter::series_capacitance) =
        -square * times_j<Scalar>(e.angular_frequency * element.capacitance_f);
}

template <typename Scalar>
void add_fault_gradient(Gradient& g, const Leak& leak, const Runs& runs, const Elements<Scalar>& e,
                        const Solution<Scalar>& s) {
    at(g, Parameter::position) = growth_gradient(runs, e, s);
    at(g, Parameter::leak_resistance) = s.to_frame[0] * s.to_frame[0] / leak.resistance_ohm;
}

template <typename Scalar>
void add_fault_gradient(Gradient& g, const Load& load, const Runs& runs, const Elements<Scalar>& e,
                        const Solution<Scalar>& s) {
    const Scalar v = s.across_leads(runs);
    at(g, Parameter::load_resistance) = v * v / load.resistance_ohm;
    at(g, Parameter::load_capacitance) = -v * v * times_j<Scalar>(e.angular_frequency * load.capacitance_f);
    if (is_direct_current<Scalar> || load.tone_capacitance_f <= 0.0) return;
    const Scalar tone_current = v * tone_siemens<Scalar>(load, e.angular_frequency);
    const Scalar square = tone_current * tone_current;
    at(g, Parameter::tone_resistance) = square * load.tone_resistance_ohm;
    at(g, Parameter::tone_capacitance) =
        square * times_j<Scalar>(1.0 / (e.angular_frequency * load.tone_capacitance_f));
}

template <typename Scalar>
ImpedanceWithGradient with_gradient(const Coil& coil, const FaultElement& fault, CoilPort port,
                                    double frequency_hz) {
    return std::visit(
        [&](const auto& element) {
            const auto e = elements_of<Scalar>(coil, frequency_hz);
            const Runs runs = runs_of(element);
            const auto s = solve_at_port(runs, e, branches_of<Scalar>(element, e.angular_frequency), port);
            ImpedanceWithGradient result;
            result.impedance_ohm = s.impedance;
            add_coil_gradient(result.derivative, runs, e, s);
            add_fault_gradient(result.derivative, element, runs, e, s);
            return result;
        },
        fault);
}

template <typename Scalar>
Complex without_gradient(const Coil& coil, const FaultElement& fault, CoilPort port, double frequency_hz) {
    return std::visit(
        [&](const auto& element) -> Complex {
            const auto e = elements_of<Scalar>(coil, frequency_hz);
            return solve_at_port(runs_of(element), e, branches_of<Scalar>(element, e.angular_frequency), port)
                .impedance;
        },
        fault);
}

template <typename Scalar>
Complex mean_current(const Coil& coil, const FaultElement& fault, double frequency_hz) {
    return std::visit(
        [&](const auto& element) -> Complex {
            const auto e = elements_of<Scalar>(coil, frequency_hz);
            const Runs runs = runs_of(element);
            const auto s =
                solve_at_port(runs, e, branches_of<Scalar>(element, e.angular_frequency), CoilPort::leads);
            return squares_over(runs.share, s).flux;
        },
        fault);
}

} // namespace

ImpedanceWithGradient impedance_with_gradient(const Coil& coil, const FaultElement& fault, CoilPort port,
                                              double frequency_hz) {
    return frequency_hz > 0.0 ? with_gradient<Complex>(coil, fault, port, frequency_hz)
                              : with_gradient<double>(coil, fault, port, frequency_hz);
}

Complex impedance(const Coil& coil, const FaultElement& fault, CoilPort port, double frequency_hz) {
    return frequency_hz > 0.0 ? without_gradient<Complex>(coil, fault, port, frequency_hz)
                              : without_gradient<double>(coil, fault, port, frequency_hz);
}

Complex mean_turn_current(const Coil& coil, const FaultElement& fault, double frequency_hz) {
    return frequency_hz > 0.0 ? mean_current<Complex>(coil, fault, frequency_hz)
                              : mean_current<double>(coil, fault, frequency_hz);
}

} // namespace coilward
