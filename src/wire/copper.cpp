#include "wire/copper.h"

#include "wire/circle.h"

#include <cmath>
#include <stdexcept>
#include <string_view>

#include <fmt/format.h>

namespace coilward {
namespace {

double require_positive(double number, std::string_view what) {
    if (number > 0.0 && std::isfinite(number)) return number;
    throw std::invalid_argument(fmt::format("{} of {} is impossible; give one above 0", what, number));
}

/// R(T) / R20 of the linear law.
double linear_ratio(double temperature_c, double alpha_20_per_kelvin) {
    const double ratio = 1.0 + alpha_20_per_kelvin * (temperature_c - 20.0);
    if (ratio > 0.0 && std::isfinite(ratio)) return ratio;
    throw std::invalid_argument(
        fmt::format("at {} degC the linear law of resistance and temperature does not hold; give a "
                    "temperature above {:.1f} degC",
                    temperature_c, 20.0 - 1.0 / alpha_20_per_kelvin));
}

} // namespace

double copper_alpha_20(double relative_conductivity) {
    return copper_alpha_20_per_kelvin * require_positive(relative_conductivity, "a relative conductivity");
}

double copper_alpha_at(double temperature_c, double relative_conductivity) {
    const double alpha_20 = copper_alpha_20(relative_conductivity);
    return alpha_20 / linear_ratio(temperature_c, alpha_20);
}

double resistance_at_20_ohm(double resistance_ohm, double temperature_c, double alpha_20_per_kelvin) {
    return resistance_ohm / linear_ratio(temperature_c, alpha_20_per_kelvin);
}

double resistance_at_ohm(double resistance_20_ohm, double temperature_c, double alpha_20_per_kelvin) {
    return resistance_20_ohm * linear_ratio(temperature_c, alpha_20_per_kelvin);
}

double conductor_temperature_c(double resistance_ohm, double resistance_20_ohm, double alpha_20_per_kelvin) {
    const double ratio = require_positive(resistance_ohm, "a resistance") /
                         require_positive(resistance_20_ohm, "a resistance");
    return 20.0 + (ratio - 1.0) / alpha_20_per_kelvin;
}

double ohm_per_metre_20(double conductor_diameter_m, double conductivity_s_per_m) {
    return 1.0 /
           (require_positive(conductivity_s_per_m, "a conductivity") * circle_area_m2(conductor_diameter_m));
}

} // namespace coilward
