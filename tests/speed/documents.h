#pragma once

#include <string>

/// Invented readings of one coil with shorted turns: the usual ones, and all that a patient person takes.
namespace coilward {

inline std::string document_of(const std::string& more_readings) {
    return R"({"coil_model": "six-rod-42", "readings": [
{"quantity": "temperature", "value": 21.4, "standard_uncertainty": 0.5},
{"quantity": "dc_resistance", "value": 5440.0, "standard_uncertainty": 9.0},
{"quantity": "inductance", "circuit": "series", "frequency": 1000, "value": 1.81, "standard_uncertainty": 0.008},
{"quantity": "quality_factor", "frequency": 1000, "value": 1.34, "standard_uncertainty": 0.02},
{"quantity": "capacitance", "between": "start-frame", "frequency": 1000, "value": 6.1e-11, "standard_uncertainty": 1e-12},
{"quantity": "capacitance", "between": "finish-frame", "frequency": 1000, "value": 6.2e-11, "standard_uncertainty": 1e-12},
{"quantity": "insulation_resistance", "between": "start-frame", "state": "over_range", "limit": 2e7})" +
           more_readings + R"(,
{"quantity": "polarity", "value": "as_expected"}]})";
}

inline std::string typical_document() {
    return document_of("");
}

inline std::string full_document() {
    return document_of(R"(,
{"quantity": "insulation_resistance", "between": "finish-frame", "state": "over_range", "limit": 2e7},
{"quantity": "ac_resistance", "circuit": "series", "frequency": 1000, "value": 8500, "standard_uncertainty": 30},
{"quantity": "inductance", "circuit": "series", "frequency": 120, "value": 1.86, "standard_uncertainty": 0.02})");
}

} // namespace coilward
