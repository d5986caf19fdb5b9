#include "diagnosis/nested_laplace.h"

#include "diagnosis/landscape.h"

#include <cmath>
#include <numbers>

namespace coilward {
namespace {

// In deviations of the unknown that is walked along, as the mode has them.
constexpr double stride = 1.5;
constexpr double furthest = 24.0;
// A side that falls over the first stride by so much of what a normal distribution does is taken for half of
// one, as wide as that fall says.
constexpr double nearly_normal = 0.8;
// Of the integral across the others, beside that at the mode: the rest is taken for exponential.
constexpr double low_enough = -2.5;

/// A walk from a mode along one unknown to one side, the others going with it.
class Walk {
public:
    /// The landscape outlives it. `way`: how all unknowns go with a deviation of the k-th.
    Walk(const Landscape& landscape, const Mode& mode, Eigen::Index k, const Vector& way)
        : landscape_(landscape), k_(k), here_(mode.unknowns), step_(way) {}

    double gone() const { return gone_; }

    /// Goes on by so many deviations; ln of the integral across the others there. −∞ from where there is
    /// none.
    double go(double deviations) {
        if (lost_) return never;
        const Vector before = here_;
        here_ = landscape_.within_bounds(here_ + deviations * step_);
        const double log_integral = across_others();
        lost_ = !std::isfinite(log_integral);
        step_ = (here_ - before) / deviations;
        gone_ += deviations;
        return lost_ ? never : log_integral;
    }

private:
    /// Laplace's integral, by the others' most probable values.
    double across_others() {
        constexpr double settled_gain = 0.1;
        constexpr int most_corrections = 4;
        Landscape::Here here = landscape_.objective(here_);
        for (int step = 0;; ++step) {
            here.information.pin(k_);
            here.gradient[k_] = 0.0;
            const BorderedCholesky factored(here.information);
            const Vector move = factored.solve(-here.gradient);
            const double gain = -0.5 * here.gradient.dot(move);
            const double log_integral = -here.cost - factored.half_log_determinant();
            if (!(gain > settled_gain)) {
                here_ = landscape_.within_bounds(here_ + move);
                return log_integral + gain;
            }
            if (step == most_corrections || !descend(landscape_, here_, here, landscape_.shortened(move)))
                return log_integral;
        }
    }

    const Landscape& landscape_;
    Eigen::Index k_;
    Vector here_;
    Vector step_; ///< a deviation further, as the last one led
    double gone_ = 0.0;
    bool lost_ = false;
};

/// Simpson's rule over two steps.
double simpson(double step, double log_first, double log_middle, double log_last) {
    return step / 3.0 * (std::exp(log_first) + 4.0 * std::exp(log_middle) + std::exp(log_last));
}

/// What lies to one side of the mode, beside the integral across the others at it.
double half_integral(Walk walk, double log_at_mode) {
    const auto further = [&](double deviations) { return walk.go(deviations) - log_at_mode; };
    double before = further(stride);
    if (before < -0.5 * nearly_normal * stride * stride)
        return stride * std::sqrt(std::numbers::pi / (-4.0 * before));
    double last = further(stride);
    double sum = simpson(stride, 0.0, before, last);
    double step = stride;
    while (last > low_enough && walk.gone() < furthest) {
        step = 2.0 * stride;
        const double first = last;
        before = further(step);
        last = further(step);
        sum += simpson(step, first, before, last);
    }
    if (last < before) sum += step * std::exp(last) / (before - last);
    return sum;
}

double half_log_determinant_without(Eigen::Index k, Bordered information) {
    information.pin(k);
    return BorderedCholesky(information).half_log_determinant();
}

/// With the second derivatives by the severities as they are.
Bordered with_curvature(const Landscape& landscape, const Mode& mode) {
    constexpr double part = 0.05; // of a severity's deviation with all else held
    const Vector gradient = landscape.objective(mode.unknowns).gradient;
    const Eigen::Index count = mode.information.severity_count;
    Bordered information = mode.information;
    for (Eigen::Index s = 0; s < count; ++s) {
        const double step = part / std::sqrt(mode.information.corner(s, s));
        Vector beside = mode.unknowns;
        beside[coil_count + s] += step;
        const Vector slope = (landscape.objective(beside).gradient - gradient) / step;
        information.border.col(s) = slope.head<coil_count>();
        information.corner.col(s).head(count) = slope.tail(count);
    }
    return information;
}

} // namespace

double log_share_of_curvature(Unknown along, Primitive primitive, const Component& component,
                              const CoilPrior& prior, const Evidence& evidence, const Mode& mode) {
    const auto k = static_cast<Eigen::Index>(along);
    const Landscape landscape(primitive, component, prior, evidence, 0.0);
    const double share = half_log_determinant_without(k, mode.information) -
                         half_log_determinant_without(k, with_curvature(landscape, mode));
    return std::isfinite(share) ? share : 0.0;
}

double log_evidence_along(Unknown along, Primitive primitive, const Component& component,
                          const CoilPrior& prior, const Evidence& evidence, const Mode& mode) {
    const auto k = static_cast<Eigen::Index>(along);
    const Vector with_it = covariance_with(along, mode);
    const double deviation = std::sqrt(with_it[k]);
    const Vector way = with_it / deviation;
    Landscape landscape(primitive, component, prior, evidence, 0.0);
    landscape.lift_bounds(k);
    const double at_mode = mode.log_evidence - std::log(deviation);
    const double both = half_integral(Walk(landscape, mode, k, way), at_mode) +
                        half_integral(Walk(landscape, mode, k, -way), at_mode);
    return mode.log_evidence + std::log(both) - 0.5 * std::log(2.0 * std::numbers::pi);
}

} // namespace coilward
