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
            pieces.push_back({low + (i + 0.5) * spacing, deviation_per_spacing * spacing,
                              (1.0 - 2.0 * distribution.at_ends) * band.weight / count});
    }
    if (distribution.at_ends > 0.0) {
        const auto end_at = [&](double place) {
            return Piece{to_measure(unknown, place), 0.0, distribution.at_ends};
        };
        pieces.insert(pieces.begin(), end_at(distribution.bands.front().low));
        pieces.push_back(end_at(distribution.bands.back().high));
    }
    return pieces;
}

std::vector<Piece> pieces_of(Unknown unknown, const Distribution& distribution) {
    switch (distribution.kind) {
    case Distribution::Kind::fixed:
        return {{to_measure(unknown, distribution.value), 0.0, 1.0}};
    case Distribution::Kind::log_normal:
        return {{to_measure(unknown, distribution.median), distribution.log_deviation, 1.0}};
    case Distribution::Kind::uniform:
    case Distribution::Kind::log_uniform:
        break;
    }
    return pieces_over_bands(unknown, distribution);
}

Component with_piece(Component component, Unknown unknown, const Piece& piece, bool is_piece) {
    component.log_weight += std::log(piece.weight);
    at(component.fixed, unknown) = piece.mean;
    if (piece.deviation == 0.0) return component;
    if (component.severity_count == Component::most_severities)
        throw std::invalid_argument("a fault may have at most four severities that are not fixed");
    component.severities[component.severity_count++] = {unknown, piece.mean, piece.deviation, is_piece};
    return component;
}

/// All pieces as one, of the same mean and variance.
Piece whole_of(const std::vector<Piece>& pieces) {
    double mean = 0.0;
    for (const Piece& piece : pieces)
        mean += piece.weight * piece.mean;
    double variance = 0.0;
    for (const Piece& piece : pieces)
        variance += piece.weight * (piece.deviation * piece.deviation + std::pow(piece.mean - mean, 2));
    return {mean, std::sqrt(variance), 1.0};
}

Axis axis_of(const Fault& fault, const Severity& severity) {
    const auto unknown = unknown_named(severity.name);
    if (!unknown)
        throw std::invalid_argument(fmt::format("{}: no severity is named {}", fault.file, severity.name));
    return {*unknown, pieces_of(*unknown, severity.distribution)};
}

std::size_t nearest_piece(const Axis& axis, double measure) {
    const auto nearest = std::ranges::min_element(
        axis.pieces, {}, [&](const Piece& piece) { return std::abs(piece.mean - measure); });
    return static_cast<std::size_t>(nearest - axis.pieces.begin());
}

/// The start, moved to a low and a high piece of each axis that has several and is linear, or is not.
std::vector<Values> branched(const Hypothesis& hypothesis, const Values& start, bool linear) {
    std::vector<Values> starts{start};
    for (const Axis& axis : hypothesis.axes) {
        const std::size_t count = axis.pieces.size();
        if (count == 1 || is_linear(axis.unknown) != linear) continue;
        std::vector<Values> product;
        for (const std::size_t place : {count / 4, count - 1 - count / 4})
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
    const Component none{.fixed = prior.mean};
    Hypothesis hypothesis{&fault, {}, {none}, none};
    for (const Severity& severity : fault.severities) {
        const Axis& axis = hypothesis.axes.emplace_back(axis_of(fault, severity));
        const bool is_piece = axis.pieces.size() > 1;
        std::vector<Component> product;
        for (const Piece& piece : axis.pieces)
            for (const Component& component : hypothesis.components)
                product.push_back(with_piece(component, axis.unknown, piece, is_piece));
        hypothesis.components = std::move(product);
        hypothesis.roaming = with_piece(hypothesis.roaming, axis.unknown, whole_of(axis.pieces), false);
    }
    return hypothesis;
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
    return branched(hypothesis, hypothesis.roaming.fixed, false);
}

std::vector<Values> at_both_sides(const Hypothesis& hypothesis, const Values& rough) {
    return branched(hypothesis, rough, true);
}

} // namespace coilward
