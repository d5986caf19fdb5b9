#include "wire/insulation.h"

#include "wire/gauge.h"

#include <algorithm>
#include <array>

namespace coilward {
namespace {

/// One gauge. All in mil; 0 stands for a figure that is not known.
struct Row {
    int awg;
    double single_increase;
    double single_maximum;
    double heavy_increase;
    double heavy_maximum;
    Basis basis;
};

constexpr std::array<Row, 11> rows{{
    {36, 0.4, 5.8, 0.8, 0.0, Basis::published},
    {37, 0.3, 5.2, 0.8, 0.0, Basis::published},
    {38, 0.3, 4.7, 0.7, 0.0, Basis::published},
    {39, 0.2, 4.1, 0.6, 0.0, Basis::published},
    {40, 0.2, 3.7, 0.6, 0.0, Basis::published},
    {41, 0.0, 3.3, 0.0, 3.6, Basis::unverified},
    {42, 0.0, 3.0, 0.0, 3.2, Basis::unverified},
    {43, 0.0, 2.6, 0.0, 2.9, Basis::unverified},
    {44, 0.0, 2.4, 0.0, 2.7, Basis::unverified},
    {45, 0.0, 2.05, 0.0, 2.3, Basis::unverified},
    {46, 0.0, 1.85, 0.0, 2.1, Basis::unverified},
}};

std::optional<double> metre(double mil) {
    if (mil == 0.0) return std::nullopt;
    return mil * metre_per_mil;
}

} // namespace

std::optional<OverallDiameter> awg_overall_diameter(int awg, Build build) {
    const auto row = std::ranges::find(rows, awg, &Row::awg);
    if (row == rows.end()) return std::nullopt;
    const bool single = build == Build::single;
    return OverallDiameter{.minimum_increase_m = metre(single ? row->single_increase : row->heavy_increase),
                           .maximum_m = metre(single ? row->single_maximum : row->heavy_maximum),
                           .basis = row->basis};
}

} // namespace coilward
