#include "wire/gauge.h"

#include "wire/copper.h"

#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {
namespace {

double exact_mil(int awg) {
    if (awg < largest_awg || awg > smallest_awg)
        throw std::invalid_argument(
            fmt::format("{} AWG does not exist; give a gauge from 0000 (as -3) to 56", awg));
    return 5.0 * std::pow(92.0, (36.0 - awg) / 39.0);
}

double nominal_mil(int awg) {
    const double steps_per_mil = awg <= 44 ? 10.0 : 100.0;
    return std::round(exact_mil(awg) * steps_per_mil) / steps_per_mil;
}

} // namespace

double awg_diameter_m(int awg, AwgDiameter which) {
    return metre_per_mil * (which == AwgDiameter::exact ? exact_mil(awg) : nominal_mil(awg));
}

std::string awg_name(int awg) {
    if (awg < 0 && awg >= largest_awg) return std::string(static_cast<std::size_t>(1 - awg), '0');
    return std::to_string(awg);
}

std::optional<WireLimits> awg_diameter_limits_m(int awg) {
    if (awg < 24 || awg > 44) return std::nullopt;
    const double nominal = nominal_mil(awg);
    const double tolerance = awg <= 26 ? 0.2 : 0.1;
    return WireLimits{.minimum = metre_per_mil * (nominal - tolerance),
                      .nominal = metre_per_mil * nominal,
                      .maximum = metre_per_mil * (nominal + tolerance),
                      .basis = awg == 41 || awg == 43 ? Basis::pattern : Basis::published};
}

std::optional<WireLimits> awg_resistance_limits_ohm_per_m(int awg) {
    if (const auto diameter = awg_diameter_limits_m(awg))
        return WireLimits{.minimum = ohm_per_metre_20(diameter->maximum),
                          .nominal = ohm_per_metre_20(diameter->nominal),
                          .maximum = ohm_per_metre_20(diameter->minimum),
                          .basis = diameter->basis};
    if (awg < 45 || awg > 48) return std::nullopt;
    constexpr double tolerance = 0.08;
    const double nominal = ohm_per_metre_20(awg_diameter_m(awg, AwgDiameter::nominal));
    return WireLimits{.minimum = nominal * (1.0 - tolerance),
                      .nominal = nominal,
                      .maximum = nominal * (1.0 + tolerance),
                      .basis = awg == 46 || awg == 48 ? Basis::published : Basis::pattern};
}

} // namespace coilward
