#include "report/limits_json.h"

#include <cmath>

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

nlohmann::ordered_json end_of(double limit) {
    return std::isinf(limit) ? nlohmann::ordered_json() : nlohmann::ordered_json(limit);
}

} // namespace

nlohmann::ordered_json limits_form(double low, double high) {
    return {end_of(low), end_of(high)};
}

} // namespace coilward
