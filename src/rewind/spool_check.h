#pragma once

#include "metrology/conformity.h"
#include "rewind/uncertain.h"
#include "wire/basis.h"

#include <optional>
#include <vector>

namespace coilward {

/// One reading of a piece of wire: its resistance, and its temperature at that moment.
struct WireReading {
    double resistance_ohm = 0.0;
    double temperature_c = 0.0;
};

/// What was measured of a piece of wire from a spool. Either its length is known, or its mass.
struct WirePiece {
    std::vector<WireReading> readings;       ///< one or more
    double resistance_uncertainty_ohm = 0.0; ///< of the meter, the same for all readings
    double temperature_uncertainty_c = 0.0;  ///< of the thermometer, likewise
    std::optional<Uncertain> length_m;       ///< of the conductor
    std::optional<Uncertain> mass_kg;        ///< with its enamel
    Uncertain enamel_share{0.08, 0.03};      ///< of the mass: estimate for single build of 40 to 46 AWG
};

/// A gauge that the wire may be.
struct GaugeCandidate {
    int awg = 0;
    WireLimits limits_ohm_per_m; ///< what its standard accepts, at 20 °C
    double nominal_ratio = 0.0;  ///< measured / nominal
    double probability = 0.0;    ///< that the wire's ohm per metre lies within those limits
};

/// What a spool measures, and which gauges that can be.
struct SpoolCheck {
    Uncertain ohm_per_metre_20;
    double correlation = 0.0; ///< of resistance and temperature, from their common scatter
    int claimed_awg = 0;      ///< by its label
    Conformity conformity;    ///< to the claimed gauge's limits
    std::vector<GaugeCandidate>
        candidates;            ///< the claimed gauge and up to two on either side, thickest first
    double none_of_them = 0.0; ///< that it lies in a gap between gauges, or beyond them
};

/// Ohm per metre at 20 °C of the piece. Several readings of resistance and temperature vary together, as
/// copper does, and that is taken into account (JCGM 100:2008, 5.2 and example H.2). Throws
/// std::invalid_argument where not exactly one of length and mass is known, nothing was read, or a number is
/// not above 0. `correlation` takes that of resistance and temperature.
Uncertain ohm_per_metre_of(const WirePiece&, double* correlation = nullptr);

/// Throws std::invalid_argument as ohm_per_metre_of does, and where the gauge's limits are not known.
SpoolCheck check_spool(const WirePiece&, int claimed_awg, double conformance_probability = 0.95);

} // namespace coilward
