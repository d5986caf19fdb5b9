#include "diagnosis/hypothesis.h"

#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {
namespace {

/// A piece of a distribution: normal, or a point where the deviation is 0.
struct Piece {
    double mean = 0.0;
    double deviation = 0.0;
    double weight = 1.0;
};

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
        pieces.push_back({to_measure(unknown, distribution.bands.front().low), 0.0, distribution.at_ends});
        pieces.push_back({to_measure(unknown, distribution.bands.back().high), 0.0, distribution.at_ends});
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

} // namespace

Hypothesis hypothesis_of(const Fault& fault, const CoilPrior& prior) {
    Hypothesis hypothesis{&fault, {Component{.fixed = prior.mean}}};
    for (const Severity& severity : fault.severities) {
        const auto unknown = unknown_named(severity.name);
        if (!unknown)
            throw std::invalid_argument(
                fmt::format("{}: no severity is named {}", fault.file, severity.name));
        const bool is_piece = severity.distribution.kind != Distribution::Kind::log_normal;
        std::vector<Component> product;
        for (const Piece& piece : pieces_of(*unknown, severity.distribution))
            for (const Component& component : hypothesis.components)
                product.push_back(with_piece(component, *unknown, piece, is_piece));
        hypothesis.components = std::move(product);
    }
    return hypothesis;
}

} // namespace coilward
