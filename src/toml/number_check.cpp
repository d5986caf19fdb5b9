#include "toml/number_check.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace coilward {
namespace {

bool is_within(double value, const Measure& measure) {
    return value >= measure.low && value <= measure.high;
}

std::string written(std::span<const double> values) {
    if (values.size() == 1) return fmt::format("{:.12g}", values[0]);
    return fmt::format("[{:.12g}]", fmt::join(values, ", "));
}

/// "; if that is in kiloohm, write [5700, 6600]" where another unit explains the numbers, "" otherwise.
std::string other_unit_hint(std::span<const double> values, const Measure& measure) {
    for (const MistakenUnit& unit : measure.mistakes) {
        std::vector<double> converted(values.begin(), values.end());
        for (double& value : converted)
            value *= unit.size;
        if (std::ranges::all_of(converted, [&](double value) { return is_within(value, measure); }))
            return fmt::format("; if that is in {}, write {}", unit.name, written(converted));
    }
    return "";
}

} // namespace

std::optional<Objection> objection(std::span<const double> values, const Measure& measure) {
    const auto any = [&](auto condition) { return std::ranges::any_of(values, condition); };
    if (any([](double value) { return !std::isfinite(value); }))
        return Objection{ComplaintKind::not_finite, described(measure)};
    if (any([&](double value) { return value < 0.0 || (value == 0.0 && measure.low > 0.0); }))
        return Objection{ComplaintKind::not_positive, described(measure)};
    if (any([&](double value) { return !is_within(value, measure); }))
        return Objection{measure.mistakes.empty() ? ComplaintKind::out_of_bounds
                                                  : ComplaintKind::wrong_magnitude,
                         described(measure) + other_unit_hint(values, measure)};
    return std::nullopt;
}

} // namespace coilward
