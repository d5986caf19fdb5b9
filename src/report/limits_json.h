#pragma once

#include <nlohmann/json_fwd.hpp>

namespace coilward {

/// [low, high]. JSON has no infinity: an open end is null.
nlohmann::ordered_json limits_form(double low, double high);

} // namespace coilward
