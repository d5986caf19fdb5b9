#pragma once

#include "coil/coil.h"
#include "coil/fault_element.h"
#include "wire/copper.h"

#include <complex>
#include <numbers>
#include <type_traits>

/// What a coil and its fault are made of at one frequency. `Scalar` is a complex number where there is a test
/// signal, and a plain one at direct current, where nothing has a phase.
namespace coilward {

template <typename Scalar>
inline constexpr bool is_direct_current = std::is_same_v<Scalar, double>;

/// j·x; nothing at direct current, where every reactance and susceptance that is passed here is 0.
template <typename Scalar>
Scalar times_j(double x) {
    if constexpr (is_direct_current<Scalar>)
        return 0.0;
    else
        return {0.0, x};
}

/// Ohm and siemens at the coil's temperature; R, L0, κ, τ, C and Cf as in coil.h.
template <typename Scalar>
struct Elements {
    double angular_frequency = 0.0; ///< radian per second
    double resistance_ohm = 0.0;    ///< of all turns, at temperature
    double resistance_per_kelvin = 0.0;
    Scalar coupled_ohm{}; ///< jωL0
    Scalar eddy_ohm{};    ///< ω²L0κ / (1/τ + jω)
    Scalar eddy_ohm_per_log_time{};
    Scalar self_siemens{};  ///< jωC
    Scalar frame_siemens{}; ///< jωCf
    double insulation_siemens = 0.0;
};

/// At a frequency in hertz; 0 with a plain number as Scalar.
template <typename Scalar>
Elements<Scalar> elements_of(const Coil& coil, double frequency_hz) {
    Elements<Scalar> e;
    const double omega = 2.0 * std::numbers::pi * frequency_hz;
    const double resistance_20 = coil.turns * coil.ohm_per_turn_20;
    const double inductance = coil.turns * coil.turns * coil.henry_per_turn2;
    e.angular_frequency = omega;
    e.resistance_ohm = resistance_at_ohm(resistance_20, coil.temperature_c);
    e.resistance_per_kelvin = resistance_20 * copper_alpha_20_per_kelvin;
    e.insulation_siemens = 1.0 / coil.frame_insulation_ohm;
    e.coupled_ohm = times_j<Scalar>(omega * inductance);
    e.self_siemens = times_j<Scalar>(omega * coil.self_capacitance_f);
    e.frame_siemens = times_j<Scalar>(omega * coil.frame_capacitance_f);
    if constexpr (!is_direct_current<Scalar>) {
        if (coil.eddy_share > 0.0) {
            const Scalar loop = 1.0 / Scalar{1.0 / coil.eddy_time_s, omega};
            e.eddy_ohm = omega * omega * inductance * coil.eddy_share * loop;
            e.eddy_ohm_per_log_time = e.eddy_ohm * loop * (1.0 / coil.eddy_time_s);
        }
    }
    return e;
}

/// The tone control and its capacitor in series.
template <typename Scalar>
Scalar tone_siemens(const Load& load, double omega) {
    if (is_direct_current<Scalar> || load.tone_capacitance_f <= 0.0) return {};
    return 1.0 / (load.tone_resistance_ohm + times_j<Scalar>(-1.0 / (omega * load.tone_capacitance_f)));
}

/// All that hangs across the leads: volume control, cable, tone control.
template <typename Scalar>
Scalar load_siemens(const Load& load, double omega) {
    return 1.0 / load.resistance_ohm + times_j<Scalar>(omega * load.capacitance_f) +
           tone_siemens<Scalar>(load, omega);
}

} // namespace coilward
