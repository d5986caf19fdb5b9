#pragma once

#include "faults.h"
#include "healthy_population.h"

#include <filesystem>
#include <optional>
#include <string>

namespace population {

/// The coil model file of a construction: each range is the central 95 % of `coils` simulated healthy coils
/// at 20 °C.
std::string coil_model_text(const Construction&, int coils = 4000);

/// Copies a folder of rules and adds the coil models of all constructions. With a mix, the priors of the
/// copied faults are set to the chances of that mix, a fault that is not drawn to one in a hundred.
void write_models(const std::filesystem::path& rules_from, const std::filesystem::path& out,
                  std::optional<Mix>);

} // namespace population
