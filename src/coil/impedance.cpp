#include "coil/impedance.h"

#include "coil/linear_system.h"
#include "wire/copper.h"

#include <numbers>
#include <span>

namespace coilward {
namespace {

using Complex = std::complex<double>;
using Gradient = decltype(ImpedanceWithGradient::derivative);

// Terminals first, then the places inside the winding that a fault needs.
constexpr std::size_t start = 0, finish = 1, frame = 2, inner = 3, beyond = 4;
constexpr std::size_t most_nodes = 5;

/// A run of turns between two nodes. `growth` is the derivative of its share by the fault's place or size.
struct Segment {
    std::size_t from = start;
    std::size_t to = finish;
    double share = 1.0;
    double growth = 0.0;
};

struct Admittance {
    std::size_t a = 0;
    std::size_t b = 0;
    Complex siemens;
};

/// Up to two runs of turns, and a bridge across the second. The bridge is a branch with a current of its own:
/// as an admittance, a hundredth of an ohm beside the insulation's gigaohms would cost the direct-current
/// digits.
struct Winding {
    std::size_t nodes = 3;
    std::size_t segment_count = 1;
    std::array<Segment, 2> segments{};
    double leakage = 0.0;
    bool bridged = false;
    double bridge_ohm = 0.0;

    std::size_t branch_count() const { return segment_count + (bridged ? 1 : 0); }
};

constexpr std::size_t bridge_branch = 2;

/// The elements of a coil at one frequency, and its winding's coupled impedances.
struct Elements {
    double resistance_ohm = 0.0; // of all turns, at temperature
    double resistance_per_kelvin = 0.0;
    Complex coupled_ohm; // jωL0
    Complex eddy_ohm;    // ω²L0κ / (1/τ + jω)
    Complex eddy_ohm_per_log_time;
    Complex self_siemens;  // jωC
    Complex frame_siemens; // jωCf
    double insulation_siemens = 0.0;
    double angular_frequency = 0.0;
};

Elements elements_of(const Coil& coil, double frequency_hz) {
    Elements e;
    const double omega = 2.0 * std::numbers::pi * frequency_hz;
    const double resistance_20 = coil.turns * coil.ohm_per_turn_20;
    const double inductance = coil.turns * coil.turns * coil.henry_per_turn2;
    e.angular_frequency = omega;
    e.resistance_ohm = resistance_at_ohm(resistance_20, coil.temperature_c);
    e.resistance_per_kelvin = resistance_20 * copper_alpha_20_per_kelvin;
    e.coupled_ohm = {0.0, omega * inductance};
    if (coil.eddy_share > 0.0 && omega > 0.0) {
        const Complex loop{1.0 / coil.eddy_time_s, omega};
        e.eddy_ohm = omega * omega * inductance * coil.eddy_share / loop;
        e.eddy_ohm_per_log_time = e.eddy_ohm * (1.0 / coil.eddy_time_s) / loop;
    }
    e.self_siemens = {0.0, omega * coil.self_capacitance_f};
    e.frame_siemens = {0.0, omega * coil.frame_capacitance_f};
    e.insulation_siemens = 1.0 / coil.frame_insulation_ohm;
    return e;
}

Winding winding_of(const NoFault&) {
    return {};
}

Winding winding_of(const Load&) {
    return {};
}

Winding winding_of(const Bridge& bridge) {
    return {.nodes = 4,
            .segment_count = 2,
            .segments = {Segment{start, inner, 1.0 - bridge.share, -1.0},
                         Segment{inner, finish, bridge.share, 1.0}},
            .leakage = bridge.leakage,
            .bridged = true,
            .bridge_ohm = bridge.resistance_ohm};
}

Winding winding_of(const SeriesElement& element) {
    return {.nodes = 5,
            .segment_count = 2,
            .segments = {Segment{start, inner, element.position, 1.0},
                         Segment{beyond, finish, 1.0 - element.position, -1.0}}};
}

Winding winding_of(const Leak& leak) {
    return {.nodes = 4,
            .segment_count = 2,
            .segments = {Segment{start, inner, leak.position, 1.0},
                         Segment{inner, finish, 1.0 - leak.position, -1.0}}};
}

Complex tone_siemens(const Load& load, double omega) {
    if (load.tone_capacitance_f <= 0.0 || omega <= 0.0) return {};
    return 1.0 / Complex{load.tone_resistance_ohm, -1.0 / (omega * load.tone_capacitance_f)};
}

Admittance admittance_of(const NoFault&, double) {
    return {start, finish, {}};
}

Admittance admittance_of(const Bridge&, double) {
    return {start, finish, {}};
}

Admittance admittance_of(const SeriesElement& element, double omega) {
    return {inner, beyond, {1.0 / element.resistance_ohm, omega * element.capacitance_f}};
}

Admittance admittance_of(const Leak& leak, double) {
    return {inner, frame, 1.0 / leak.resistance_ohm};
}

Admittance admittance_of(const Load& load, double omega) {
    return {start, finish,
            Complex{1.0 / load.resistance_ohm, omega * load.capacitance_f} + tone_siemens(load, omega)};
}

/// Share-dependent factors of segment i's and j's common inductance, and of the eddy loop's coupling to both.
/// Perfectly coupled turns have x_i x_j; leakage λ takes λ x1 x2 from the mutual part and gives it to each
/// self part, so that the whole keeps L0.
double inductance_factor(const Winding& w, std::size_t i, std::size_t j) {
    const double mutual = w.segments[i].share * w.segments[j].share;
    if (w.segment_count == 1) return mutual;
    const double common = w.leakage * w.segments[0].share * w.segments[1].share;
    return i == j ? mutual + common : mutual - common;
}

Complex segment_impedance(const Winding& w, const Elements& e, std::size_t i, std::size_t j) {
    const double shares = w.segments[i].share * w.segments[j].share;
    const double resistance = i == j ? w.segments[i].share * e.resistance_ohm : 0.0;
    return resistance + inductance_factor(w, i, j) * e.coupled_ohm + shares * e.eddy_ohm;
}

/// What an impedance between two segments gains when the fault's place or size grows by one.
Complex segment_growth(const Winding& w, const Elements& e, std::size_t i, std::size_t j) {
    const Segment& a = w.segments[i];
    const Segment& b = w.segments[j];
    const double shares = a.growth * b.share + a.share * b.growth;
    const double common =
        w.leakage * (w.segments[0].growth * w.segments[1].share + w.segments[0].share * w.segments[1].growth);
    const double resistance = i == j ? a.growth * e.resistance_ohm : 0.0;
    return resistance + (i == j ? shares + common : shares - common) * e.coupled_ohm + shares * e.eddy_ohm;
}

/// Rows and columns of the nodal equations; the port's second terminal is the reference and has none.
class Layout {
public:
    Layout(const Winding& winding, std::size_t reference) : reference_(reference), nodes_(winding.nodes) {}

    bool has_row(std::size_t node) const { return node != reference_; }

    std::size_t row(std::size_t node) const { return node < reference_ ? node : node - 1; }

    std::size_t current_row(std::size_t branch) const { return nodes_ - 1 + branch; }

private:
    std::size_t reference_;
    std::size_t nodes_;
};

void add(LinearSystem& system, const Layout& layout, const Admittance& y) {
    if (layout.has_row(y.a)) system.matrix[layout.row(y.a)][layout.row(y.a)] += y.siemens;
    if (layout.has_row(y.b)) system.matrix[layout.row(y.b)][layout.row(y.b)] += y.siemens;
    if (layout.has_row(y.a) && layout.has_row(y.b)) {
        system.matrix[layout.row(y.a)][layout.row(y.b)] -= y.siemens;
        system.matrix[layout.row(y.b)][layout.row(y.a)] -= y.siemens;
    }
}

void connect_branch(LinearSystem& system, const Layout& layout, std::size_t branch, std::size_t from,
                    std::size_t to) {
    const std::size_t current = layout.current_row(branch);
    if (layout.has_row(from)) {
        system.matrix[layout.row(from)][current] += 1.0;
        system.matrix[current][layout.row(from)] += 1.0;
    }
    if (layout.has_row(to)) {
        system.matrix[layout.row(to)][current] -= 1.0;
        system.matrix[current][layout.row(to)] -= 1.0;
    }
}

void add_branches(LinearSystem& system, const Layout& layout, const Winding& w, const Elements& e) {
    for (std::size_t i = 0; i < w.segment_count; ++i) {
        connect_branch(system, layout, i, w.segments[i].from, w.segments[i].to);
        for (std::size_t j = 0; j < w.segment_count; ++j)
            system.matrix[layout.current_row(i)][layout.current_row(j)] -= segment_impedance(w, e, i, j);
    }
    if (!w.bridged) return;
    connect_branch(system, layout, bridge_branch, inner, finish);
    system.matrix[layout.current_row(bridge_branch)][layout.current_row(bridge_branch)] -= w.bridge_ohm;
}

void add_frame(LinearSystem& system, const Layout& layout, const Winding& w, const Elements& e) {
    for (const Segment& segment : std::span(w.segments).first(w.segment_count)) {
        const Complex half = 0.5 * segment.share * (e.frame_siemens + e.insulation_siemens);
        add(system, layout, {segment.from, frame, half});
        add(system, layout, {segment.to, frame, half});
    }
}

struct Terminals {
    std::size_t in = start;
    std::size_t out = finish;
};

Terminals terminals_of(CoilPort port) {
    switch (port) {
    case CoilPort::leads:
        return {start, finish};
    case CoilPort::start_frame:
        return {start, frame};
    case CoilPort::finish_frame:
        return {finish, frame};
    }
    return {};
}

/// Node voltages (reference 0) and branch currents at a port current of one ampere.
struct Solution {
    std::array<Complex, most_nodes> voltage{};
    std::array<Complex, 3> current{};

    Complex across(std::size_t a, std::size_t b) const { return voltage[a] - voltage[b]; }
};

Solution solve_at_unit_current(const Winding& w, const Elements& e, const Admittance& fault, Terminals port) {
    const Layout layout(w, port.out);
    LinearSystem system;
    system.size = w.nodes - 1 + w.branch_count();
    add_branches(system, layout, w, e);
    add_frame(system, layout, w, e);
    add(system, layout, {start, finish, e.self_siemens});
    add(system, layout, fault);
    system.right_side[layout.row(port.in)] = 1.0;
    solve(system);

    Solution solution;
    for (std::size_t node = 0; node < w.nodes; ++node)
        if (layout.has_row(node)) solution.voltage[node] = system.right_side[layout.row(node)];
    for (std::size_t i = 0; i < w.branch_count(); ++i)
        solution.current[i] = system.right_side[layout.current_row(i)];
    return solution;
}

Complex& at(Gradient& gradient, Parameter parameter) {
    return gradient[static_cast<std::size_t>(parameter)];
}

/// Derivatives by what every coil has.
void add_coil_gradient(Gradient& g, const Winding& w, const Elements& e, const Solution& s) {
    Complex by_resistance, by_share, by_inductance;
    for (std::size_t i = 0; i < w.segment_count; ++i) {
        by_resistance += s.current[i] * s.current[i] * w.segments[i].share;
        for (std::size_t j = 0; j < w.segment_count; ++j) {
            const Complex currents = s.current[i] * s.current[j];
            by_share += currents * (w.segments[i].share * w.segments[j].share);
            by_inductance += currents * inductance_factor(w, i, j);
        }
    }
    const Complex resistive = by_resistance * e.resistance_ohm;
    const Complex inductive = by_inductance * e.coupled_ohm + by_share * e.eddy_ohm;
    at(g, Parameter::turns) = resistive + 2.0 * inductive;
    at(g, Parameter::ohm_per_turn) = resistive;
    at(g, Parameter::henry_per_turn2) = inductive;
    at(g, Parameter::eddy_share) = by_share * e.eddy_ohm;
    at(g, Parameter::eddy_time) = by_share * e.eddy_ohm_per_log_time;
    at(g, Parameter::temperature) = by_resistance * e.resistance_per_kelvin;
    const Complex v = s.across(start, finish);
    at(g, Parameter::self_capacitance) = -v * v * e.self_siemens;
    for (const Segment& segment : std::span(w.segments).first(w.segment_count)) {
        const Complex a = s.across(segment.from, frame);
        const Complex b = s.across(segment.to, frame);
        const Complex squares = 0.5 * segment.share * (a * a + b * b);
        at(g, Parameter::frame_capacitance) -= squares * e.frame_siemens;
        at(g, Parameter::frame_insulation) += squares * e.insulation_siemens;
    }
}

/// Derivative by the fault's place or size, on which every segment depends.
Complex growth_gradient(const Winding& w, const Elements& e, const Solution& s) {
    Complex sum;
    for (std::size_t i = 0; i < w.segment_count; ++i) {
        for (std::size_t j = 0; j < w.segment_count; ++j)
            sum += s.current[i] * s.current[j] * segment_growth(w, e, i, j);
        const Complex a = s.across(w.segments[i].from, frame);
        const Complex b = s.across(w.segments[i].to, frame);
        sum -= 0.5 * w.segments[i].growth * (a * a + b * b) * (e.frame_siemens + e.insulation_siemens);
    }
    return sum;
}

void add_fault_gradient(Gradient&, const NoFault&, const Winding&, const Elements&, const Solution&) {}

void add_fault_gradient(Gradient& g, const Bridge& bridge, const Winding& w, const Elements& e,
                        const Solution& s) {
    at(g, Parameter::bridge_share) = bridge.share * growth_gradient(w, e, s);
    at(g, Parameter::bridge_resistance) =
        s.current[bridge_branch] * s.current[bridge_branch] * bridge.resistance_ohm;
    const Complex difference = s.current[0] - s.current[1];
    at(g, Parameter::bridge_leakage) =
        bridge.leakage * bridge.share * (1.0 - bridge.share) * difference * difference * e.coupled_ohm;
}

void add_fault_gradient(Gradient& g, const SeriesElement& element, const Winding& w, const Elements& e,
                        const Solution& s) {
    const Complex v = s.across(inner, beyond);
    at(g, Parameter::position) = growth_gradient(w, e, s);
    at(g, Parameter::series_resistance) = v * v / element.resistance_ohm;
    at(g, Parameter::series_capacitance) = -v * v * Complex{0.0, e.angular_frequency * element.capacitance_f};
}

void add_fault_gradient(Gradient& g, const Leak& leak, const Winding& w, const Elements& e,
                        const Solution& s) {
    const Complex v = s.across(inner, frame);
    at(g, Parameter::position) = growth_gradient(w, e, s);
    at(g, Parameter::leak_resistance) = v * v / leak.resistance_ohm;
}

void add_fault_gradient(Gradient& g, const Load& load, const Winding&, const Elements& e, const Solution& s) {
    const Complex v = s.across(start, finish);
    at(g, Parameter::load_resistance) = v * v / load.resistance_ohm;
    at(g, Parameter::load_capacitance) = -v * v * Complex{0.0, e.angular_frequency * load.capacitance_f};
    const Complex tone = tone_siemens(load, e.angular_frequency);
    if (tone == Complex{}) return;
    const Complex tone_current = v * tone;
    at(g, Parameter::tone_resistance) = tone_current * tone_current * load.tone_resistance_ohm;
    at(g, Parameter::tone_capacitance) =
        tone_current * tone_current * Complex{0.0, 1.0 / (e.angular_frequency * load.tone_capacitance_f)};
}

} // namespace

ImpedanceWithGradient impedance_with_gradient(const Coil& coil, const FaultElement& fault, CoilPort port,
                                              double frequency_hz) {
    return std::visit(
        [&](const auto& element) {
            const Elements e = elements_of(coil, frequency_hz);
            const Winding w = winding_of(element);
            const Terminals terminals = terminals_of(port);
            const Solution s =
                solve_at_unit_current(w, e, admittance_of(element, e.angular_frequency), terminals);
            ImpedanceWithGradient result;
            result.impedance_ohm = s.across(terminals.in, terminals.out);
            add_coil_gradient(result.derivative, w, e, s);
            add_fault_gradient(result.derivative, element, w, e, s);
            return result;
        },
        fault);
}

Complex impedance(const Coil& coil, const FaultElement& fault, CoilPort port, double frequency_hz) {
    return std::visit(
        [&](const auto& element) {
            const Elements e = elements_of(coil, frequency_hz);
            const Terminals terminals = terminals_of(port);
            const Solution s = solve_at_unit_current(winding_of(element), e,
                                                     admittance_of(element, e.angular_frequency), terminals);
            return s.across(terminals.in, terminals.out);
        },
        fault);
}

} // namespace coilward
