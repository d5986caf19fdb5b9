#pragma once

#include "reading/json_text.h"
#include "reading/reading.h"

#include <map>
#include <string>

namespace coilward {

/// Coil name → coil model, as in Examination::coils. Empty for a single coil.
using CoilNames = std::map<std::string, std::string>;

/// The reading that stands at a place in a document. Where the pickup has several coils, it must name one of
/// them or "whole"; a temperature may leave that open. Throws BadDocument.
Reading reading_at(const Placed&, const CoilNames& coils);

/// The readings form. Throws std::invalid_argument for a number that is not finite, which JSON cannot hold.
nlohmann::ordered_json readings_form(const Reading&);

} // namespace coilward
