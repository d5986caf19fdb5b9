#include "diagnosis/hypothesis.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {
namespace {

// Deviation of a normal piece in units of the spacing of pieces.
constexpr double deviation_per_spacing = 0.5;

std::vector<Piece> pieces_over_bands(Unknown unknown, const Distribution& distribution) {
    double whole = 0.0;
    for (const auto& band : distribution.bands)
        whole += to_measure(unknown, band.high) - to_measure(unknown, band.low);
    std::vector<Piece> pieces;
    for (const auto& band : distribution.bands) {
        const double low = to_measure(unknown, band.low);
        const double width = to_measure(unknown, band.high) - low;
        const int count = std::max(1, static_cast<int>(std::lround(distribution.points * width / whole)));
        const double spacing = width / count;
        for (int i = 0; i < count; ++i)
            pieces.push_back({.mean = low + (i + 0.5) * spacing,
                              .deviation = deviation_per_spacing * spacing,
                              .weight = (1.0 - 2.0 * distribution.at_ends) * band.weight / count});
    }
    if (distribution.at_ends > 0.0) {
        const auto end_at = [&](double place) {
            return Piece{.mean = to_measure(unknown, place), .weight = distribution.at_ends};
        };
        pieces.insert(pieces.begin(), end_at(distribution.bands.front().low));
        pieces.push_back(end_at(distribution.bands.back().high));
    }
    return pieces;
}

std::vector<Piece> pieces_of(Unknown unknown, const Distribution& distribution) {
    switch (distribution.kind) {
    case Distribution::Kind::fixed:
        return {{.mean = to_measure(unknown, distribution.value)}};
    case Distribution::Kind::log_normal:
        return {{.mean = to_measure(unknown, distribution.median), .deviation = distribution.log_deviation}};
    case Distribution::Kind::uniform:
    case Distribution::Kind::log_uniform:
        break;
    }
    return pieces_over_bands(unknown, distribution);
}

void add_piece(Component& component, Unknown unknown, const Piece& piece, bool is_piece) {
    component.log_weight += piece.log_weight;
    at(component.fixed, unknown) = piece.mean;
    if (piece.deviation == 0.0) return;
    if (component.severity_count == Component::most_severities)
        throw std::invalid_argument("a fault may have at most four severities that are not fixed");
    component.severities[component.severity_count++] = {unknown, piece.mean, piece.deviation, is_piece};
}

/// All pieces as one, of the same mean and variance.
Piece whole_of(const std::vector<Piece>& pieces) {
    double mean = 0.0;
    for (const Piece& piece : pieces)
        mean += piece.weight * piece.mean;
    double variance = 0.0;
    for (const Piece& piece : pieces)
        variance += piece.weight * (piece.deviation * piece.deviation + std::pow(piece.mean - mean, 2));
    return {mean, std::sqrt(variance), 1.0, 0.0};
}

Axis axis_of(const Fault& fault, const Severity& severity) {
    const auto unknown = unknown_named(severity.name);
    if (!unknown)
        throw std::invalid_argument(fmt::format("{}: no severity is named {}", fault.file, severity.name));
    Axis axis{*unknown, pieces_of(*unknown, severity.distribution)};
    for (Piece& piece : axis.pieces)
        piece.log_weight = std::log(piece.weight);
    return axis;
}

std::size_t nearest_piece(const Axis& axis, double measure) {
    const auto nearest = std::ranges::min_element(
        axis.pieces, {}, [&](const Piece& piece) { return std::abs(piece.mean - measure); });
    return static_cast<std::size_t>(nearest - axis.pieces.begin());
}

/// A low and a high piece, and if `points_too` the points at its ends where it has them.
std::vector<std::size_t> spread_over(const Axis& axis, bool points_too) {
    const std::size_t last = axis.pieces.size() - 1;
    const std::size_t quarter = axis.pieces.size() / 4;
    if (points_too && axis.pieces.front().deviation == 0.0) return {quarter, last - quarter, 0, last};
    return {quarter, last - quarter};
}

/// The start, moved over each axis that has several pieces and is linear, or is not.
std::vector<Values> branched(const Hypothesis& hypothesis, const Values& start, bool linear,
                             bool points_too) {
    std::vector<Values> starts{start};
    for (const Axis& axis : hypothesis.axes) {
        if (axis.pieces.size() == 1 || is_linear(axis.unknown) != linear) continue;
        std::vector<Values> product;
        for (const std::size_t place : spread_over(axis, points_too))
            for (Values branch : starts) {
                at(branch, axis.unknown) = axis.pieces[place].mean;
                product.push_back(branch);
            }
        starts = std::move(product);
    }
    return starts;
}

} // namespace

Hypothesis hypothesis_of(const Fault& fault, const CoilPrior& prior) {
    Hypothesis hypothesis{&fault, {}, prior.mean, {.fixed = prior.mean}};
    hypothesis.axes.reserve(fault.severities.size());
    for (const Severity& severity : fault.severities) {
        const Axis& axis = hypothesis.axes.emplace_back(axis_of(fault, severity));
        add_piece(hypothesis.roaming, axis.unknown, whole_of(axis.pieces), false);
    }
    return hypothesis;
}

std::size_t component_count(const Hypothesis& hypothesis) {
    std::size_t count = 1;
    for (const Axis& axis : hypothesis.axes)
        count *= axis.pieces.size();
    return count;
}

Component component_at(const Hypothesis& hypothesis, std::size_t index) {
    Component component{.fixed = hypothesis.coil};
    for (const Axis& axis : hypothesis.axes) {
        add_piece(component, axis.unknown, axis.pieces[index % axis.pieces.size()], axis.pieces.size() > 1);
        index /= axis.pieces.size();
    }
    return component;
}

std::size_t nearest_component(const Hypothesis& hypothesis, const Values& values) {
    std::size_t index = 0;
    std::size_t stride = 1;
    for (const Axis& axis : hypothesis.axes) {
        index += stride * nearest_piece(axis, at(values, axis.unknown));
        stride *= axis.pieces.size();
    }
    return index;
}

std::vector<std::size_t> neighbours_of(const Hypothesis& hypothesis, std::size_t component) {
    std::vector<std::size_t> neighbours;
    std::size_t stride = 1;
    for (const Axis& axis : hypothesis.axes) {
        const std::size_t place = component / stride % axis.pieces.size();
        if (place > 0) neighbours.push_back(component - stride);
        if (place + 1 < axis.pieces.size()) neighbours.push_back(component + stride);
        stride *= axis.pieces.size();
    }
    return neighbours;
}

std::vector<Values> starts_of(const Hypothesis& hypothesis) {
    return branched(hypothesis, hypothesis.roaming.fixed, false, false);
}

std::vector<Values> along_winding(const Hypothesis& hypothesis, const Values& rough, bool ends_too) {
    return branched(hypothesis, rough, true, ends_too);
}

std::size_t unknowns_of(const Component& component) {
    return coil_unknown_count + component.severity_count;
}

Unknown unknown_at(const Component& component, std::size_t k) {
    return k < coil_unknown_count ? static_cast<Unknown>(k)
                                  : component.severities[k - coil_unknown_count].unknown;
}

Values values_at(const Component& component, const Vector& unknowns) {
    Values values = component.fixed;
    for (std::size_t k = 0; k < unknowns_of(component); ++k)
        at(values, unknown_at(component, k)) = unknowns[static_cast<Eigen::Index>(k)];
    return values;
}

} // namespace coilward
