#pragma once

#include "network.h"
#include "winding.h"

#include <optional>

namespace population {

/// Places are shares of the turns from the start lead; 0 and 1 are the lead joints.
struct Short {
    double from = 0.0;
    double to = 0.0;
    double ohm = 0.0;
};

struct Break {
    double place = 0.5;
    double ohm = 0.0;
    double gap_farad = 0.0;
};

struct FrameLeak {
    double place = 0.5;
    double ohm = 0.0;
};

/// Volume control, cable, and tone control (resistance in series with a capacitor; none where the capacitor
/// is 0).
struct Controls {
    double volume_ohm = 0.0;
    double cable_farad = 0.0;
    double tone_ohm = 0.0;
    double tone_farad = 0.0;
};

/// What is wrong with the coil, as circuit elements; all absent in a healthy one.
struct Damage {
    std::optional<Short> shorted;
    std::optional<Break> broken;
    std::optional<FrameLeak> leak;
    std::optional<Controls> controls;
    double turns_factor = 1.0;
    double resistance_factor = 1.0;
};

struct Circuit {
    Network network;
    int start = 0;
    int finish = 0;
    int frame = 0;
};

/// The winding has `grid` sections and is cut further where the damage is.
Circuit circuit_of(const Coil&, const Damage&, double temperature_c, int grid = 24);

} // namespace population
