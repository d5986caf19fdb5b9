#include "coil/impedance.h"

#include "coil/elements.h"
#include "coil/impedances.h"
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
    return {{1.0 - bridge.share, bridge.share}, {-1.0, 1.0}, bridge.leakage};
}

Runs runs_of(const SeriesElement& element) {
    return {{element.position, 1.0 - element.position}, {1.0, -1.0}};
}

Runs runs_of(const Leak& leak) {
    return {{leak.position, 1.0 - leak.position}, {1.0, -1.0}};
}

template <typename Scalar>
WholeWinding<Scalar> winding_of(const NoFault&, const Runs&, const Elements<Scalar>& e) {
    return {e, Scalar{}};
}

template <typename Scalar>
WholeWinding<Scalar> winding_of(const Load& load, const Runs&, const Elements<Scalar>& e) {
    return {e, load_siemens<Scalar>(load, e.angular_frequency)};
}

template <typename Scalar>
PartedWinding<Scalar, double, Closed> winding_of(const Bridge& bridge, const Runs& runs,
                                                 const Elements<Scalar>& e) {
    return {runs, e, cuts_of(runs, e), Scalar{}, 1.0 / bridge.resistance_ohm};
}

template <typename Scalar>
PartedWinding<Scalar, double, Gap<Scalar>> winding_of(const SeriesElement& element, const Runs& runs,
                                                      const Elements<Scalar>& e) {
    const Scalar gap =
        1.0 / element.resistance_ohm + times_j<Scalar>(e.angular_frequency * element.capacitance_f);
    return {runs, e, cuts_of(runs, e), gap, 0.0};
}

template <typename Scalar>
PartedWinding<Scalar, Scalar, Closed> winding_of(const Leak& leak, const Runs& runs,
                                                 const Elements<Scalar>& e) {
    return {runs, e, cuts_of(runs, e, 1.0 / leak.resistance_ohm), Scalar{}, 0.0};
}

/// In how many runs an element parts the winding.
template <typename Element>
inline constexpr std::size_t run_count =
    std::is_same_v<Element, NoFault> || std::is_same_v<Element, Load> ? 1 : 2;

Complex& at(Gradient& gradient, Parameter parameter) {
    return gradient[static_cast<std::size_t>(parameter)];
}

/// Squares of one run's current and of its voltage to the frame, the mean of both ends.
template <typename Scalar>
struct RunSquares {
    Scalar current{};
    Scalar frame_voltage{};
};

/// What the derivatives are made of.
template <typename Scalar, std::size_t count>
struct Squares {
    std::array<RunSquares<Scalar>, count> of_run;
    Scalar flux{};   ///< Σ share · current, which every turn links: not a square
    Scalar leaked{}; ///< (current_0 − current_1)², which drives the flux that leaks between the runs

    Squares(const Runs& runs, const Solution<Scalar>& s) {
        for (std::size_t i = 0; i < count; ++i) {
            of_run[i] = {square(s.current[i]), 0.5 * (square(s.from_frame[i]) + square(s.to_frame[i]))};
            flux += runs.share[i] * s.current[i];
        }
        if constexpr (count > 1) leaked = square(Scalar(s.current[0] - s.current[1]));
    }

    /// Over the runs, each with its `part` of all turns.
    RunSquares<Scalar> sum(const std::array<double, 2>& parts) const {
        RunSquares<Scalar> sums{};
        for (std::size_t i = 0; i < count; ++i) {
            sums.current += parts[i] * of_run[i].current;
            sums.frame_voltage += parts[i] * of_run[i].frame_voltage;
        }
        return sums;
    }
};

/// Derivatives by what every coil has.
template <typename Scalar, std::size_t count>
void set_coil_gradient(Gradient& g, const Runs& runs, const Elements<Scalar>& e, const Solution<Scalar>& s,
                       const Squares<Scalar, count>& squares) {
    const RunSquares<Scalar> all = squares.sum(runs.share);
    const Scalar resistive = e.resistance_ohm * all.current;
    at(g, Parameter::ohm_per_turn) = resistive;
    at(g, Parameter::temperature) = e.resistance_per_kelvin * all.current;
    at(g, Parameter::frame_insulation) = e.insulation_siemens * all.frame_voltage;
    if constexpr (is_direct_current<Scalar>) {
        at(g, Parameter::turns) = resistive;
    } else {
        const Scalar by_flux = square(squares.flux);
        const Scalar leaked = runs.leakage * runs.share[0] * runs.share[1] * squares.leaked;
        const Scalar by_eddy = by_flux * e.eddy_ohm;
        const Scalar inductive = times_j<Scalar>(e.coupled_reactance_ohm, by_flux + leaked) + by_eddy;
        at(g, Parameter::turns) = resistive + 2.0 * inductive;
        at(g, Parameter::henry_per_turn2) = inductive;
        at(g, Parameter::eddy_share) = by_eddy;
        at(g, Parameter::eddy_time) = by_flux * e.eddy_ohm_per_log_time;
        at(g, Parameter::self_capacitance) =
            -times_j<Scalar>(e.self_susceptance_siemens, square(s.across_leads));
        at(g, Parameter::frame_capacitance) =
            -times_j<Scalar>(e.frame_susceptance_siemens, all.frame_voltage);
    }
}

/// Derivative by the fault's place or size, on which every run depends.
template <typename Scalar>
Scalar growth_gradient(const Runs& runs, const Elements<Scalar>& e, const Solution<Scalar>& s,
                       const Squares<Scalar, 2>& squares) {
    const RunSquares<Scalar> growing = squares.sum(runs.growth);
    const Scalar by_direct_current =
        e.resistance_ohm * growing.current - e.insulation_siemens * growing.frame_voltage;
    if constexpr (is_direct_current<Scalar>) {
        return by_direct_current;
    } else {
        const Scalar growing_flux = runs.growth[0] * s.current[0] + runs.growth[1] * s.current[1];
        const double leaking =
            runs.leakage * (runs.growth[0] * runs.share[1] + runs.share[0] * runs.growth[1]);
        const Scalar linked = 2.0 * squares.flux * growing_flux;
        return by_direct_current + linked * e.eddy_ohm +
               times_j<Scalar>(e.coupled_reactance_ohm, linked + leaking * squares.leaked) -
               times_j<Scalar>(e.frame_susceptance_siemens, growing.frame_voltage);
    }
}

template <typename Scalar>
void set_fault_gradient(Gradient&, const NoFault&, const Runs&, const Elements<Scalar>&,
                        const Solution<Scalar>&, const Squares<Scalar, 1>&) {}

template <typename Scalar>
void set_fault_gradient(Gradient& g, const Bridge& bridge, const Runs& runs, const Elements<Scalar>& e,
                        const Solution<Scalar>& s, const Squares<Scalar, 2>& squares) {
    at(g, Parameter::bridge_share) = bridge.share * growth_gradient(runs, e, s, squares);
    at(g, Parameter::bridge_resistance) = bridge.resistance_ohm * square(s.shunt_current);
    at(g, Parameter::bridge_leakage) = times_j<Scalar>(
        bridge.leakage * bridge.share * (1.0 - bridge.share) * e.coupled_reactance_ohm, squares.leaked);
}

template <typename Scalar>
void set_fault_gradient(Gradient& g, const SeriesElement& element, const Runs& runs,
                        const Elements<Scalar>& e, const Solution<Scalar>& s,
                        const Squares<Scalar, 2>& squares) {
    const Scalar voltage = square(s.gap_voltage);
    at(g, Parameter::position) = growth_gradient(runs, e, s, squares);
    at(g, Parameter::series_resistance) = voltage * (1.0 / element.resistance_ohm);
    at(g, Parameter::series_capacitance) =
        -times_j<Scalar>(e.angular_frequency * element.capacitance_f, voltage);
}

template <typename Scalar>
void set_fault_gradient(Gradient& g, const Leak& leak, const Runs& runs, const Elements<Scalar>& e,
                        const Solution<Scalar>& s, const Squares<Scalar, 2>& squares) {
    at(g, Parameter::position) = growth_gradient(runs, e, s, squares);
    at(g, Parameter::leak_resistance) = square(s.to_frame[0]) * (1.0 / leak.resistance_ohm);
}

template <typename Scalar>
void set_fault_gradient(Gradient& g, const Load& load, const Runs&, const Elements<Scalar>& e,
                        const Solution<Scalar>& s, const Squares<Scalar, 1>&) {
    const Scalar voltage = square(s.across_leads);
    at(g, Parameter::load_resistance) = voltage * (1.0 / load.resistance_ohm);
    at(g, Parameter::load_capacitance) = -times_j<Scalar>(e.angular_frequency * load.capacitance_f, voltage);
    if (is_direct_current<Scalar> || load.tone_capacitance_f <= 0.0) return;
    const Scalar current = voltage * square(tone_siemens<Scalar>(load, e.angular_frequency)); // squared
    at(g, Parameter::tone_resistance) = load.tone_resistance_ohm * current;
    at(g, Parameter::tone_capacitance) =
        times_j<Scalar>(1.0 / (e.angular_frequency * load.tone_capacitance_f), current);
}

template <typename Scalar>
void see_with_gradient(const Coil& coil, const FaultElement& fault, double frequency_hz,
                       std::span<const CoilPort> ports, std::span<ImpedanceWithGradient> seen) {
    std::visit(
        [&]<typename Element>(const Element& element) {
            const auto e = elements_of<Scalar>(coil, frequency_hz);
            const Runs runs = runs_of(element);
            const auto winding = winding_of(element, runs, e);
            for (std::size_t i = 0; i < ports.size(); ++i) {
                const Solution<Scalar> s = solve_at_port<Scalar>(winding, ports[i]);
                const Squares<Scalar, run_count<Element>> squares(runs, s);
                seen[i] = {s.impedance, {}};
                set_coil_gradient(seen[i].derivative, runs, e, s, squares);
                set_fault_gradient(seen[i].derivative, element, runs, e, s, squares);
            }
        },
        fault);
}

template <typename Scalar>
Complex without_gradient(const Coil& coil, const FaultElement& fault, CoilPort port, double frequency_hz) {
    return std::visit(
        [&](const auto& element) -> Complex {
            const auto e = elements_of<Scalar>(coil, frequency_hz);
            return solve_at_port<Scalar>(winding_of(element, runs_of(element), e), port).impedance;
        },
        fault);
}

template <typename Scalar>
Complex mean_current(const Coil& coil, const FaultElement& fault, double frequency_hz) {
    return std::visit(
        [&]<typename Element>(const Element& element) -> Complex {
            const auto e = elements_of<Scalar>(coil, frequency_hz);
            const Runs runs = runs_of(element);
            const auto s = solve_at_port<Scalar>(winding_of(element, runs, e), CoilPort::leads);
            return Squares<Scalar, run_count<Element>>(runs, s).flux;
        },
        fault);
}

} // namespace

void impedances_with_gradient(const Coil& coil, const FaultElement& fault, double frequency_hz,
                              std::span<const CoilPort> ports, std::span<ImpedanceWithGradient> seen) {
    if (frequency_hz > 0.0)
        see_with_gradient<Complex>(coil, fault, frequency_hz, ports, seen);
    else
        see_with_gradient<double>(coil, fault, frequency_hz, ports, seen);
}

ImpedanceWithGradient impedance_with_gradient(const Coil& coil, const FaultElement& fault, CoilPort port,
                                              double frequency_hz) {
    ImpedanceWithGradient seen;
    impedances_with_gradient(coil, fault, frequency_hz, {&port, 1}, {&seen, 1});
    return seen;
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
