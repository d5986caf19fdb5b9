#pragma once

#include "reading/quantity.h"
#include "units/range.h"

#include <optional>
#include <string>

namespace coilward {

/// The wire as the coil model states it: by gauge, or by the diameter of the bare conductor.
struct ConductorChoice {
    std::optional<int> awg;
    std::optional<double> conductor_diameter_m;
    std::string insulation;
};

/// A measured bobbin. Lengths in metre; each may be absent.
struct BobbinSize {
    std::optional<double> core_length_m;
    std::optional<double> core_width_m;
    std::optional<double> wound_height_m;
    std::optional<double> flange_length_m;
    std::optional<double> flange_width_m;
};

/// What healthy coils of one construction measure at 20 °C, read from rules/coils/ID.toml (docs/formats.md).
/// A range that is absent stays absent here; the pickup types say how wide it then is (Rules::allowed).
struct CoilModel {
    std::string id;
    std::string title;
    std::string source;
    std::string file;
    ConductorChoice wire;
    std::optional<Range> turns;
    std::optional<Range> mean_turn_length_m;
    BobbinSize bobbin;
    double test_frequency_hz = 1000.0;
    Circuit circuit = Circuit::series;
    Range dc_resistance_ohm;
    std::optional<Range> inductance_h;        ///< at test_frequency_hz, in `circuit`
    std::optional<Range> quality_factor;      ///< at test_frequency_hz
    std::optional<Range> self_capacitance_f;  ///< across the leads
    std::optional<Range> frame_capacitance_f; ///< from the whole coil to the frame
};

} // namespace coilward
