#pragma once

#include "reading/quantity.h"
#include "units/range.h"

#include <optional>
#include <string>

namespace coilward {

/// The wire as the coil model states it: by gauge, or by the diameter of the bare conductor.
struct ConductorChoice {
    std::optional<int> awg; ///< 24 to 56
    std::optional<double> conductor_diameter_m;
    std::string insulation; ///< in words; may be empty
};

/// A measured bobbin. Lengths in metre; each may be absent.
struct BobbinSize {
    /// What the first layer lies on.
    std::optional<double> core_length_m;
    std::optional<double> core_width_m;
    std::optional<double> wound_height_m; ///< between the flanges
    std::optional<double> flange_length_m;
    std::optional<double> flange_width_m;
};

/// What healthy coils of one construction measure at 20 °C, read from rules/coils/ID.toml
/// (docs/formats-rules.md).
/// A range that is absent stays absent here; the pickup types say how wide it then is (Rules::allowed).
struct CoilModel {
    std::string id;     ///< the name of its file
    std::string title;  ///< for people
    std::string source; ///< where the numbers come from
    std::string file;   ///< as complaints name it
    ConductorChoice wire;
    std::optional<Range> turns;
    std::optional<Range> mean_turn_length_m;
    BobbinSize bobbin;
    double test_frequency_hz = 1000.0; ///< above 0, at most 20 kHz
    Circuit circuit = Circuit::series;
    Range dc_resistance_ohm;                  ///< across the leads
    std::optional<Range> inductance_h;        ///< at test_frequency_hz, in `circuit`
    std::optional<Range> quality_factor;      ///< at test_frequency_hz
    std::optional<Range> self_capacitance_f;  ///< across the leads
    std::optional<Range> frame_capacitance_f; ///< from the whole coil to the frame
};

} // namespace coilward
