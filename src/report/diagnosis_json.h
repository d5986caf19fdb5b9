#pragma once

#include "diagnosis/pickup_diagnosis.h"

#include <string>

namespace coilward {

/// The diagnosis document (docs/formats.md) on one line. `id` is the JSON value by which the readings
/// document called itself, to be echoed as it was; where it is empty the diagnosis's own id is written as
/// text. Throws nlohmann::json::parse_error where it is no JSON.
std::string diagnosis_to_json(const Diagnosis&, const std::string& id = {});

/// The same for a pickup of several coils.
std::string diagnosis_to_json(const PickupDiagnosis&, const std::string& id = {});

} // namespace coilward
