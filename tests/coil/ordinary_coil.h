#pragma once

#include "coil/coil.h"

namespace coilward::test {

/// An invented coil of ordinary size: 6 kΩ, 2.3 H.
inline constexpr Coil ordinary_coil{.turns = 7800,
                                    .ohm_per_turn_20 = 0.785,
                                    .henry_per_turn2 = 3.8e-8,
                                    .self_capacitance_f = 110e-12,
                                    .frame_capacitance_f = 40e-12,
                                    .eddy_share = 0.06,
                                    .eddy_time_s = 3e-5,
                                    .frame_insulation_ohm = 5e9,
                                    .temperature_c = 23.4};

} // namespace coilward::test
