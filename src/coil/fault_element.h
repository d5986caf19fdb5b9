#pragma once

#include <variant>

/// The primitive changes that faults make in a coil's circuit. Shares and positions are of the turns, counted
/// from the start lead: 0 is the start, 1 the finish.
namespace coilward {

/// A sound winding.
struct NoFault {};

/// `resistance_ohm` across `share` of the turns. `leakage` (0 to 1) is the part of the bridged group's mutual
/// flux that does not link the rest: mutual inductance = (1 − leakage) · share · (1 − share) · L0.
struct Bridge {
    double share = 0.0;          ///< of all turns, between 0 and 1
    double resistance_ohm = 0.0; ///< of the bridge itself; above 0
    double leakage = 0.02;
};

/// Resistance ∥ capacitance in series with the wire: a bad joint, a partial break, or an open where the
/// resistance is very large.
struct SeriesElement {
    double position = 0.5;       ///< 0 to 1, from the start lead
    double resistance_ohm = 0.0; ///< above 0
    double capacitance_f = 0.0;  ///< of the gap
};

/// A resistance from a place in the winding to the frame.
struct Leak {
    double position = 0.5;       ///< 0 to 1, from the start lead
    double resistance_ohm = 0.0; ///< above 0
};

/// Volume control, cable and tone control across the leads.
struct Load {
    double resistance_ohm = 0.0;      ///< volume control; above 0
    double capacitance_f = 0.0;       ///< cable
    double tone_resistance_ohm = 0.0; ///< in series with tone_capacitance_f; no tone branch where that is 0
    double tone_capacitance_f = 0.0;
};

/// At most one of them is in a coil.
using FaultElement = std::variant<NoFault, Bridge, SeriesElement, Leak, Load>;

} // namespace coilward
