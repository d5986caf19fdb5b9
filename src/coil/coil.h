#pragma once

namespace coilward {

/// The electrical state of one healthy coil at one temperature. In short
///   R(T) = turns · ohm_per_turn_20 · (1 + α (T − 20)),  L0 = turns² · henry_per_turn2,
/// with eddy currents in poles, cover and base plate as one closed loop of time constant `eddy_time_s` that
/// takes the share `eddy_share` of the flux (coupled circuits: Z = R + jωL0 + ω²L0κ/(1/τ + jω); F. E. Terman,
/// Radio Engineers' Handbook, 1943, section 3, from memory), a
/// self-capacitance across the leads, and a capacitance to the frame spread evenly along the wire.
struct Coil {
    double turns = 0.0;
    double ohm_per_turn_20 = 0.0;       ///< at 20 °C
    double henry_per_turn2 = 0.0;       ///< L0 / turns²
    double self_capacitance_f = 0.0;    ///< across the leads
    double frame_capacitance_f = 0.0;   ///< of the whole wire
    double eddy_share = 0.0;            ///< κ, 0 to 1
    double eddy_time_s = 0.0;           ///< τ; counts where eddy_share is above 0
    double frame_insulation_ohm = 1e10; ///< spread along the wire like the capacitance
    double temperature_c = 20.0;        ///< of the copper
};

} // namespace coilward
