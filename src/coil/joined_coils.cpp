#include "coil/joined_coils.h"

#include "coil/elements.h"
#include "coil/mean_turn_current.h"

#include <cmath>

namespace coilward {
namespace {

using Complex = std::complex<double>;

double inductance_h(const Coil& coil) {
    return coil.turns * coil.turns * coil.henry_per_turn2;
}

/// A symmetric matrix of two by two: of impedances or of admittances.
struct TwoByTwo {
    Complex first;
    Complex second;
    Complex mutual;
};

TwoByTwo inverse(const TwoByTwo& m) {
    const Complex determinant = m.first * m.second - m.mutual * m.mutual;
    return {m.second / determinant, m.first / determinant, -m.mutual / determinant};
}

/// What coupling adds to the impedance matrix of two sound coils: their windings' coupled branches, each
/// beside its self-capacitance, less what each coil is alone.
TwoByTwo added_by_coupling(const JoinedCoils& coils, double frequency_hz) {
    if (frequency_hz == 0.0) return {};
    const auto first = elements_of<Complex>(coils.first, frequency_hz);
    const auto second = elements_of<Complex>(coils.second, frequency_hz);
    const double mutual_h =
        coils.coupling * std::sqrt(inductance_h(coils.first) * inductance_h(coils.second));
    const TwoByTwo windings{first.resistance_ohm + first.coupled_ohm() + first.eddy_ohm,
                            second.resistance_ohm + second.coupled_ohm() + second.eddy_ohm,
                            Complex{0.0, first.angular_frequency * mutual_h}};
    TwoByTwo admittance = inverse(windings);
    admittance.first += first.self_siemens();
    admittance.second += second.self_siemens();
    TwoByTwo added = inverse(admittance);
    added.first -= 1.0 / (1.0 / windings.first + first.self_siemens());
    added.second -= 1.0 / (1.0 / windings.second + second.self_siemens());
    return added;
}

/// By how much a coil's fault changes what it shares with another. 1 for a sound coil.
Complex mutual_factor(const Coil& coil, const FaultElement& fault, double frequency_hz) {
    if (std::holds_alternative<NoFault>(fault) || frequency_hz == 0.0) return 1.0;
    return mean_turn_current(coil, fault, frequency_hz) / mean_turn_current(coil, NoFault{}, frequency_hz);
}

Complex element_ohm(const SeriesElement& element, double omega) {
    return 1.0 / Complex{1.0 / element.resistance_ohm, omega * element.capacitance_f};
}

void join_in_series(JoinedImpedance& whole, Complex first, Complex second, Complex mutual) {
    whole.impedance_ohm = first + second + 2.0 * mutual;
    whole.by_first = 1.0;
    whole.by_second = 1.0;
    whole.by_log_coupling = 2.0 * mutual;
}

void join_in_parallel(JoinedImpedance& whole, Complex first, Complex second, Complex mutual) {
    const Complex around = first + second - 2.0 * mutual;
    const Complex through_first = (second - mutual) / around;
    const Complex through_second = (first - mutual) / around;
    whole.impedance_ohm = (first * second - mutual * mutual) / around;
    whole.by_first = through_first * through_first;
    whole.by_second = through_second * through_second;
    whole.by_log_coupling = 2.0 * through_first * through_second * mutual;
}

/// Z ∥ 1/Y: each derivative shrinks by (1 + ZY)².
void load(JoinedImpedance& whole, const Load& load, double omega) {
    const Complex siemens =
        omega > 0.0 ? load_siemens<Complex>(load, omega) : load_siemens<double>(load, omega);
    const Complex factor = 1.0 / (1.0 + whole.impedance_ohm * siemens);
    whole.impedance_ohm *= factor;
    for (Complex* derivative : {&whole.by_first, &whole.by_second, &whole.by_log_coupling})
        *derivative *= factor * factor;
}

} // namespace

JoinedImpedance impedance_of(const JoinedCoils& coils, double frequency_hz) {
    const double omega = 2.0 * std::numbers::pi * frequency_hz;
    JoinedImpedance whole;
    whole.first = impedance_with_gradient(coils.first, coils.first_fault, CoilPort::leads, frequency_hz);
    whole.second = impedance_with_gradient(coils.second, coils.second_fault, CoilPort::leads, frequency_hz);
    TwoByTwo added = added_by_coupling(coils, frequency_hz);
    added.mutual *= mutual_factor(coils.first, coils.first_fault, frequency_hz) *
                    mutual_factor(coils.second, coils.second_fault, frequency_hz);
    const Complex first = whole.first.impedance_ohm + added.first;
    Complex second = whole.second.impedance_ohm + added.second;
    if (const auto* element = std::get_if<SeriesElement>(&coils.joint))
        second += element_ohm(*element, omega);
    if (coils.in_series)
        join_in_series(whole, first, second, added.mutual);
    else
        join_in_parallel(whole, first, second, added.mutual);
    if (const auto* across = std::get_if<Load>(&coils.joint)) load(whole, *across, omega);
    return whole;
}

} // namespace coilward
