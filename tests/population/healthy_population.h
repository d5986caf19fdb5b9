#pragma once

#include "random.h"
#include "winding.h"

#include <span>
#include <string_view>

namespace population {

/// How a quantity is spread over healthy coils: lognormal.
struct Spread {
    double median = 0.0;
    double log_deviation = 0.0;
};

/// One construction of coil and the healthy population of it. All constructions are invented; their sizes are
/// those of common ones (about 0.75 ohm a turn of 42 AWG, 2 to 7 H).
struct Construction {
    std::string_view id;
    std::string_view title;
    int awg = 42;
    double ohm_per_metre = 0.0; ///< median of the wire at 20 °C
    double wire_log_deviation = 0.0;
    Spread turns;
    Spread mean_turn_length_m;
    Spread henry_per_turn2;
    Spread self_capacitance_f;
    Spread frame_capacitance_f;
    Spread eddy_share;
    Spread eddy_time_s;
    bool every_range = false; ///< its coil model states every range; else only resistance, inductance and Q
};

std::span<const Construction> constructions();

/// The resistance that a label or a price list would state, ohm at 20 °C.
double nominal_resistance_ohm(const Construction&);

struct HealthyCoil {
    Coil coil;
    double mean_turn_length_m = 0.0;
};

HealthyCoil draw_healthy(const Construction&, Random&);

/// How closely two coils of one construction were made alike.
enum class MadeAlike { twin, of_one_set };

/// A sound coil made like another: it differs as two coils of one spool and one day do, or two of one set.
Coil draw_alike(const Coil&, MadeAlike, Random&);

} // namespace population
