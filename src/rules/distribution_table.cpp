#include "rules/distribution_table.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

namespace coilward {
namespace {

using Kind = Distribution::Kind;

constexpr std::array<Word<Kind>, 4> kinds{{
    {"fixed", Kind::fixed},
    {"uniform", Kind::uniform},
    {"log-uniform", Kind::log_uniform},
    {"log-normal", Kind::log_normal},
}};

Measure without_zero(Measure measure) {
    measure.low = std::max(measure.low, above_zero);
    return measure;
}

/// Each band's share: as the file says, or by the band's width.
void weigh_bands(TableReader& table, Distribution& distribution) {
    auto& bands = distribution.bands;
    std::vector<double> weights = table.numbers("weights", Need::optional, measures::band_weight);
    if (!table.has("weights"))
        for (const auto& band : bands)
            weights.push_back(distribution.kind == Kind::log_uniform ? std::log(band.high / band.low)
                                                                     : band.high - band.low);
    if (weights.size() != bands.size())
        return table.complain(
            ComplaintKind::wrong_weight_count, "weights",
            fmt::format("found {}, expected one for each of the {} bands", weights.size(), bands.size()));
    const double whole = std::accumulate(weights.begin(), weights.end(), 0.0);
    for (std::size_t i = 0; i < bands.size(); ++i)
        bands[i].weight = weights[i] / whole;
}

void read_bands(TableReader& table, const Measure& measure, Distribution& distribution) {
    constexpr int most_points = 400;
    for (const Range& range : table.ranges("bands", Need::required, measure))
        distribution.bands.push_back({range.low, range.high});
    const auto overlap = std::ranges::adjacent_find(
        distribution.bands, [](const auto& one, const auto& next) { return one.high >= next.low; });
    if (overlap != distribution.bands.end())
        table.complain(
            ComplaintKind::overlapping_bands, "bands",
            fmt::format("found [{}, {}] before [{}, {}], expected bands from low to high that do not "
                        "touch",
                        overlap->low, overlap->high, std::next(overlap)->low, std::next(overlap)->high));
    weigh_bands(table, distribution);
    distribution.points = table.whole_number("points", Need::required, 1, most_points).value_or(1);
}

} // namespace

Distribution read_distribution(TableReader& table, const Measure& measure) {
    Distribution distribution;
    const auto kind = table.word<Kind>("distribution", Need::required, kinds);
    if (!kind) return distribution;
    distribution.kind = *kind;
    switch (*kind) {
    case Kind::fixed:
        distribution.value = table.number("value", Need::required, measure).value_or(0.0);
        break;
    case Kind::uniform:
        read_bands(table, measure, distribution);
        distribution.at_ends = table.number("at_ends", Need::optional, measures::end_weight).value_or(0.0);
        break;
    case Kind::log_uniform:
        read_bands(table, without_zero(measure), distribution);
        break;
    case Kind::log_normal:
        distribution.median = table.number("median", Need::required, without_zero(measure)).value_or(0.0);
        distribution.log_deviation =
            table.number("log_deviation", Need::required, measures::log_deviation).value_or(0.0);
        break;
    }
    return distribution;
}

} // namespace coilward
