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

/// j·x·value; nothing at direct current.
template <typename Scalar>
Scalar times_j(double x, const Scalar& value) {
    if constexpr (is_direct_current<Scalar>)
        return 0.0;
    else
        return {-x * value.imag(), x * value.real()};
}

/// 1/value, by one division. No impedance comes near the ends of a double's range, squared neither.
template <typename Scalar>
Scalar reciprocal(const Scalar& value) {
    if constexpr (is_direct_current<Scalar>) {
        return 1.0 / value;
    } else {
        const double scale = 1.0 / std::norm(value);
        return {scale * value.real(), -scale * value.imag()};
    }
}

/// value².
template <typename Scalar>
Scalar square(const Scalar& value) {
    return value * value;
}

/// Ohm and siemens at the coil's temperature; R, L0, κ, τ, C and Cf as in coil.h. What has no real part is
/// kept as the number that j stands before.
template <typename Scalar>
struct Elements {
    double angular_frequency = 0.0;         ///< radian per second
    double resistance_ohm = 0.0;            ///< of all turns, at temperature
    double resistance_per_kelvin = 0.0;     ///< ohm per kelvin
    double coupled_reactance_ohm = 0.0;     ///< ωL0
    Scalar eddy_ohm{};                      ///< ω²L0κ / (1/τ + jω)
    Scalar eddy_ohm_per_log_time{};         ///< its derivative by ln τ
    double self_susceptance_siemens = 0.0;  ///< ωC
    double frame_susceptance_siemens = 0.0; ///< ωCf
    double insulation_siemens = 0.0;        ///< of the whole wire to the frame

    /// jωL0.
    Scalar coupled_ohm() const { return times_j<Scalar>(coupled_reactance_ohm); }

    /// jωC.
    Scalar self_siemens() const { return times_j<Scalar>(self_susceptance_siemens); }

    /// jωCf.
    Scalar frame_siemens() const { return times_j<Scalar>(frame_susceptance_siemens); }
};

/// At a frequency in hertz; 0 with a plain number as Scalar. Throws std::invalid_argument where the linear
/// law leaves the copper no resistance (wire/copper.h).
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
    e.coupled_reactance_ohm = omega * inductance;
    e.self_susceptance_siemens = omega * coil.self_capacitance_f;
    e.frame_susceptance_siemens = omega * coil.frame_capacitance_f;
    if constexpr (!is_direct_current<Scalar>) {
        if (coil.eddy_share > 0.0) {
            const double rate = 1.0 / coil.eddy_time_s;
            const double scale = 1.0 / (rate * rate + omega * omega);
            const Scalar loop{rate * scale, -omega * scale}; // 1 / (1/τ + jω)
            e.eddy_ohm = omega * omega * inductance * coil.eddy_share * loop;
            e.eddy_ohm_per_log_time = e.eddy_ohm * loop * rate;
        }
    }
    return e;
}

/// The tone control and its capacitor in series; 0 at direct current and without a capacitor. `omega` in
/// radian per second.
template <typename Scalar>
Scalar tone_siemens(const Load& load, double omega) {
    if (is_direct_current<Scalar> || load.tone_capacitance_f <= 0.0) return {};
    return reciprocal<Scalar>(load.tone_resistance_ohm +
                              times_j<Scalar>(-1.0 / (omega * load.tone_capacitance_f)));
}

/// All that hangs across the leads: volume control, cable, tone control. The volume control's resistance must
/// be above 0, infinity where there is none.
template <typename Scalar>
Scalar load_siemens(const Load& load, double omega) {
    return 1.0 / load.resistance_ohm + times_j<Scalar>(omega * load.capacitance_f) +
           tone_siemens<Scalar>(load, omega);
}

} // namespace coilward
