#pragma once

#include "coil/impedances.h"
#include "diagnosis/answer_likelihood.h"
#include "diagnosis/bordered.h"
#include "diagnosis/coil_prior.h"
#include "diagnosis/descent.h"
#include "diagnosis/evidence.h"
#include "diagnosis/hypothesis.h"
#include "diagnosis/linear_algebra.h"
#include "diagnosis/log_sum.h"

#include <array>

namespace coilward {

/// −ln(posterior) over one component's unknowns, the coil's first: what a search goes down.
class Landscape {
public:
    /// What there is to know at a point.
    using Here = Objective<Vector, Bordered>;

    /// All outlive it. Every answer through the coil has at least the relative uncertainty `softness`.
    Landscape(Primitive, const Component&, const CoilPrior&, const Evidence&, double softness);

    /// Without the volume of the coil's prior (½ ln det of its precision).
    Here objective(const Vector&) const;

    /// The nearest point whose unknowns lie within their bounds and each in its piece.
    Vector within_bounds(const Vector& x) const { return x.cwiseMax(lowest_).cwiseMin(highest_); }

    /// Unknown k may have any value from now on.
    void lift_bounds(Eigen::Index k);

    /// True where unknown k stands at its own bound (a piece's edge is none) and the move pushes it against
    /// it.
    bool is_held(Eigen::Index k, const Vector& x, const Vector& move) const;

    /// The move, or as much of it as the quadratic can be trusted for: no severity may leap too far.
    Vector shortened(const Vector& move) const;

    /// True where a severity's piece is pulled out of its place for the second time: a neighbouring piece
    /// stands where the readings want it, and this one has no weight there.
    bool strays(const Vector& x, const Vector& move) const;

    /// The point with these values, each piece's severity brought near the piece.
    Vector point_near(const Values&) const;

    /// True where answers are softened.
    bool is_soft() const { return softness_ > 0.0; }

private:
    const SeverityPrior& severity_at(Eigen::Index s) const {
        return component_.severities[static_cast<std::size_t>(s)];
    }

    void add_prior(Here&, const Vector&) const;
    void add_probe(Here&, LogOfProduct& squared_widths, const ImpedanceWithGradient&, const Probe&) const;
    void add_resonance(Here&, LogOfProduct& squared_widths, const CircuitUnderTest&,
                       const PlainAnswer&) const;
    void add(Here&, LogOfProduct& squared_widths, const Judgement&, const BorderedDirection&) const;
    BorderedDirection direction_of(const ParameterSlopes&) const;
    double softening(const Answer&, Scale) const;

    Primitive primitive_;
    const Component& component_;
    const CoilPrior& prior_;
    const Evidence& evidence_;
    Eigen::Index severity_count_;
    CoilSquare prior_precision_;
    double log_severity_deviations_ = 0.0;
    double softness_;
    Vector lowest_; ///< what an unknown may be at least: its bound, or the edge of its piece
    Vector highest_;
    std::array<std::size_t, Component::most_severities> severity_parameters_{};
};

} // namespace coilward
