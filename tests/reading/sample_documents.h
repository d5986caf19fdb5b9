#pragma once

#include <string_view>

namespace coilward {

/// The example of the readings document (docs/formats.md).
inline constexpr std::string_view one_coil = R"({"coil_model": "six-rod-42",
 "readings": [
  {"quantity": "temperature", "value": 21.4, "unit": "degC", "standard_uncertainty": 0.5},
  {"quantity": "dc_resistance", "between": "leads", "value": 6112.0, "unit": "ohm", "standard_uncertainty": 9.0},
  {"quantity": "inductance", "between": "leads", "circuit": "series", "frequency": 1000, "value": 2.331, "unit": "H", "standard_uncertainty": 0.008},
  {"quantity": "ac_resistance", "between": "leads", "circuit": "series", "frequency": 1000, "value": 6580.0, "unit": "ohm", "standard_uncertainty": 30.0},
  {"quantity": "quality_factor", "between": "leads", "frequency": 1000, "value": 2.22, "unit": "1", "standard_uncertainty": 0.02},
  {"quantity": "insulation_resistance", "between": "start-frame", "state": "over_range", "limit": 2.0e7, "unit": "ohm"},
  {"quantity": "capacitance", "between": "start-frame", "frequency": 1000, "value": 4.6e-11, "unit": "F", "standard_uncertainty": 5e-13},
  {"quantity": "polarity", "value": "as_expected"}
 ]})";

/// Every member that a document may have.
inline constexpr std::string_view two_coils = R"({"id": "bench 7", "pickup_type": "dual-coil-series",
 "coils": {"slug": "six-slug-42", "screw": "six-screw-42"},
 "readings": [
  {"quantity": "temperature", "value": 21.4},
  {"quantity": "dc_resistance", "coil": "slug", "state": "unstable", "value": 4100, "spread": 35},
  {"quantity": "phase_angle", "coil": "screw", "frequency": 1000, "value": 65.7, "unit": "deg", "standard_uncertainty": 0.2},
  {"quantity": "impedance_magnitude", "coil": "whole", "frequency": 120, "value": 8420.5},
  {"quantity": "insulation_resistance", "coil": "whole", "between": "finish-shield", "state": "over_range", "limit": 2e7},
  {"quantity": "polarity", "coil": "screw", "value": "none"}
 ],
 "earlier": [
  {"at": "2024-03-02T10:00:00Z", "healthy": true, "readings": [
   {"quantity": "dc_resistance", "coil": "slug", "value": 4060.0, "standard_uncertainty": 4}
  ]},
  {"at": "2025-01-17T09:30:00Z", "healthy": false, "readings": []}
 ],
 "alike": [
  {"as": "twin", "coil": "slug", "coil_model": "six-screw-42", "healthy": true, "readings": [
   {"quantity": "dc_resistance", "value": 4010.0, "standard_uncertainty": 4}
  ]},
  {"as": "set", "coil": "screw", "healthy": false, "readings": []}
 ]})";

} // namespace coilward
