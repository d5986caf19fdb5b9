#pragma once

#include "rewind/plan.h"

#include <string>

namespace coilward {

/// The plan for a terminal: inputs, every figure with its uncertainty and main cause, whether it fits, the
/// same turns with other wires.
std::string plan_page(const Job&, const Plan&, const std::vector<OtherWire>&);

/// The same as one JSON document on one line (docs/rewinding.md).
std::string plan_to_json(const Job&, const Plan&, const std::vector<OtherWire>&);

/// "DC resistance at 20 °C" for "dc_resistance_20".
std::string figure_title(const std::string& name);

/// "6.10 ± 0.16 kΩ"; a mass in grams.
std::string amount_in_words(const Figure&);

/// "yes, 99.3 %", "undecided, 61 %".
std::string fit_in_words(const Fit&);

} // namespace coilward
