#include "diagnosis/mode.h"

#include "diagnosis/answer_likelihood.h"
#include "diagnosis/cholesky.h"
#include "diagnosis/descent.h"
#include "diagnosis/log_sum.h"
#include "diagnosis/model_error.h"
#include "diagnosis/resonance.h"

#include <cmath>
#include <limits>
#include <numbers>

#include <Eigen/Cholesky>

namespace coilward {
namespace {

constexpr int most_steps = 12;
// From far away a step may gain this many times what its quadratic says.
constexpr double hoped_share = 3.0;
constexpr double longest_leap = 4.0; // of a severity's logarithm: a factor of 55
// Steps that a roaming search may take before it is asked whether there is hope.
constexpr int roaming_patience = 2;
constexpr double most_piece_deviations = 3.5;
// Of −ln(posterior). What is left to gain then is added as the last quadratic says.
constexpr double settled_decrement = 0.2;
// A rough search goes nearer, since the next begins where it ends.
constexpr double rough_settled_decrement = 0.03;

constexpr auto coil_count = static_cast<Eigen::Index>(coil_unknown_count);

/// A search over `count` unknowns; a fixed size keeps every small matrix in registers and on the stack.
template <Eigen::Index count>
class Search {
public:
    using Point = Eigen::Matrix<double, count, 1>;
    using Square = Eigen::Matrix<double, count, count>;
    using CoilPoint = Eigen::Matrix<double, coil_count, 1>;
    using Here = Objective<Point, Square>;

    Search(Primitive primitive, const Component& component, const CoilPrior& prior, const Evidence& evidence,
           double softness = 0.0)
        : primitive_(primitive), component_(component), prior_(prior), evidence_(evidence),
          prior_precision_(prior.precision), softness_(softness) {
        for (Eigen::Index k = 0; k < count; ++k)
            parameters_[static_cast<std::size_t>(k)] =
                static_cast<std::size_t>(parameter_of(unknown_at(component, static_cast<std::size_t>(k))));
        for (std::size_t s = 0; s < component.severity_count; ++s)
            log_severity_deviations_ += std::log(component.severities[s].deviation);
    }

    Mode run(const Values& start, double hopeless, int patience) {
        Point x = starting_point(start);
        Here here = objective(x);
        Mode mode;
        for (int step = 0; step < most_steps; ++step) {
            const Cholesky<count> factored(here.information);
            mode.log_evidence = -here.cost - factored.half_log_determinant();
            const Point move = factored.solve(-here.gradient);
            const double decrement = -0.5 * here.gradient.dot(move);
            const bool no_way_on = !std::isfinite(decrement) || strays(x, move);
            const bool no_hope = step >= patience && mode.log_evidence + hoped_share * decrement < hopeless;
            if (no_way_on || no_hope) {
                mode.abandoned = true;
                return mode;
            }
            if (decrement < (softness_ > 0.0 ? rough_settled_decrement : settled_decrement)) {
                mode.log_evidence += decrement; // what is left to gain
                break;
            }
            if (!descend(*this, x, here, shortened(move))) break;
        }
        mode.unknowns = x;
        mode.information = here.information.template selfadjointView<Eigen::Lower>();
        return mode;
    }

    Point within_bounds(Point x) const {
        for (Eigen::Index k = 0; k < count; ++k) {
            const Bounds bounds = bounds_of(unknown_at(component_, static_cast<std::size_t>(k)));
            x[k] = std::clamp(x[k], bounds.low, bounds.high);
        }
        for (std::size_t s = 0; s < component_.severity_count; ++s) {
            const SeverityPrior& severity = component_.severities[s];
            if (!severity.is_piece) continue;
            const double edge = most_piece_deviations * severity.deviation;
            double& value = x[static_cast<Eigen::Index>(coil_unknown_count + s)];
            value = std::clamp(value, severity.mean - edge, severity.mean + edge);
        }
        return x;
    }

    Here objective(const Point& x) const {
        Here result{0.0, Point::Zero(), Square::Zero()};
        LogOfProduct squared_widths;
        add_prior(result, x);
        const Values values = values_at(component_, x);
        const CircuitUnderTest circuit = circuit_of(primitive_, values);
        for (const Probe& probe : evidence_.probes)
            add_probe(result, squared_widths, circuit, probe);
        for (const PlainAnswer& answer : evidence_.temperatures)
            add_temperature(result, squared_widths, answer, at(values, Unknown::temperature));
        for (const PlainAnswer& answer : evidence_.resonances)
            add_resonance(result, squared_widths, circuit, answer);
        result.cost += 0.5 * squared_widths.value();
        return result;
    }

private:
    /// No severity may leap further than the quadratic can be trusted.
    static Point shortened(const Point& move) {
        if constexpr (count > coil_count) {
            const double leap = move.template tail<count - coil_count>().cwiseAbs().maxCoeff();
            if (leap > longest_leap) return move * (longest_leap / leap);
        }
        return move;
    }

    /// True where a severity's piece is pulled out of its place for the second time: a neighbouring piece
    /// stands where the readings want it, and this one has no weight there.
    bool strays(const Point& x, const Point& move) const {
        for (std::size_t s = 0; s < component_.severity_count; ++s) {
            const SeverityPrior& severity = component_.severities[s];
            if (!severity.is_piece) continue;
            const auto k = static_cast<Eigen::Index>(coil_unknown_count + s);
            const double edge = most_piece_deviations * severity.deviation;
            if (std::abs(x[k] - severity.mean) >= 0.999 * edge &&
                std::abs(x[k] + move[k] - severity.mean) > edge)
                return true;
        }
        return false;
    }

    /// `start`, with each piece's severity brought near the piece.
    Point starting_point(const Values& start) const {
        Point x;
        for (Eigen::Index k = 0; k < count; ++k)
            x[k] = at(start, unknown_at(component_, static_cast<std::size_t>(k)));
        for (std::size_t s = 0; s < component_.severity_count; ++s) {
            const SeverityPrior& severity = component_.severities[s];
            if (!severity.is_piece) continue;
            double& value = x[static_cast<Eigen::Index>(coil_unknown_count + s)];
            value = std::clamp(value, severity.mean - severity.deviation, severity.mean + severity.deviation);
        }
        return x;
    }

    void add_prior(Here& result, const Point& x) const {
        const CoilPoint offset = x.template head<coil_count>() - CoilPoint::Map(prior_.mean.data());
        const CoilPoint pull = prior_precision_.lazyProduct(offset);
        result.cost += 0.5 * offset.dot(pull) + log_severity_deviations_;
        result.gradient.template head<coil_count>() += pull;
        result.information.template topLeftCorner<coil_count, coil_count>() += prior_precision_;
        for (std::size_t s = 0; s < component_.severity_count; ++s) {
            const SeverityPrior& severity = component_.severities[s];
            const Eigen::Index k = coil_count + static_cast<Eigen::Index>(s);
            const double z = (x[k] - severity.mean) / severity.deviation;
            result.cost += 0.5 * z * z;
            result.gradient[k] += z / severity.deviation;
            result.information(k, k) += 1.0 / (severity.deviation * severity.deviation);
        }
    }

    void add_probe(Here& result, LogOfProduct& squared_widths, const CircuitUnderTest& circuit,
                   const Probe& probe) const {
        const auto z = impedance_with_gradient(circuit.coil, circuit.fault, probe.port, probe.frequency_hz);
        const double omega = 2.0 * std::numbers::pi * probe.frequency_hz;
        for (const Answer& answer : probe.answers) {
            const LookedAt look = looked_at(answer, z.impedance_ohm, omega);
            const ParameterSlopes slopes = slopes_of(look.form, z);
            const SquaredErrors& errors = squared_errors_at(probe.frequency_hz, answer.repeats_earlier);
            const double variance = model_variance(slopes, errors) + softening(answer, look.scale);
            add(result, squared_widths, judge(answer, look, variance), direction_of(slopes));
        }
    }

    /// What a reading's slopes by the parameters are by the unknowns.
    Point direction_of(const ParameterSlopes& slopes) const {
        Point direction;
        for (Eigen::Index k = 0; k < count; ++k)
            direction[k] = slopes[parameters_[static_cast<std::size_t>(k)]];
        return direction;
    }

    double softening(const Answer& answer, Scale scale) const {
        const double softened = scale == Scale::logarithm ? softness_ : softness_ * answer.value;
        return softened * softened;
    }

    static void add_temperature(Here& result, LogOfProduct& squared_widths, const PlainAnswer& answer,
                                double temperature_c) {
        Point direction = Point::Zero();
        direction[static_cast<Eigen::Index>(Unknown::temperature)] = 1.0;
        add(result, squared_widths, judge(answer, temperature_c), direction);
    }

    void add_resonance(Here& result, LogOfProduct& squared_widths, const CircuitUnderTest& circuit,
                       const PlainAnswer& answer) const {
        // A coil without a peak cannot show one: the likelihood is that of a number ten deviations off.
        constexpr double no_peak_cost = 50.0;
        const auto resonance = resonance_near(circuit, answer.value);
        if (!resonance) {
            result.cost += no_peak_cost + std::log(answer.deviation);
            return;
        }
        add(result, squared_widths, judge(answer, resonance->frequency_hz),
            resonance->frequency_hz * direction_of(resonance->log_slope));
    }

    static void add(Here& result, LogOfProduct& squared_widths, const Judgement& judgement,
                    const Point& direction) {
        result.cost += judgement.exponent;
        squared_widths.multiply(judgement.squared_width);
        result.gradient += judgement.slope * direction;
        add_square(result.information, judgement.curvature, direction,
                   std::make_integer_sequence<int, static_cast<int>(count)>{});
    }

    /// Adds curvature · direction · directionᵀ to the lower triangle, column by column.
    template <int... columns>
    static void add_square(Square& information, double curvature, const Point& direction,
                           std::integer_sequence<int, columns...>) {
        ((information.col(columns).template tail<count - columns>() +=
          curvature * direction[columns] * direction.template tail<count - columns>()),
         ...);
    }

    Primitive primitive_;
    const Component& component_;
    const CoilPrior& prior_;
    const Evidence& evidence_;
    Eigen::Matrix<double, coil_count, coil_count> prior_precision_;
    double log_severity_deviations_ = 0.0;
    double softness_; ///< relative uncertainty that every answer through the coil has at least
    std::array<std::size_t, static_cast<std::size_t>(count)> parameters_{};
};

/// The search over as many unknowns as the component has.
template <Eigen::Index severities = 0>
Mode search(Primitive primitive, const Component& component, const CoilPrior& prior, const Evidence& evidence,
            double softness, const Values& start, double hopeless, int patience) {
    if constexpr (severities < static_cast<Eigen::Index>(Component::most_severities))
        if (component.severity_count > severities)
            return search<severities + 1>(primitive, component, prior, evidence, softness, start, hopeless,
                                          patience);
    return Search<coil_count + severities>(primitive, component, prior, evidence, softness)
        .run(start, hopeless, patience);
}

/// By how much (in nats) the evidence can grow at most when a softness is taken away: where the prediction is
/// right the density of each number rises as its deviation shrinks, and elsewhere less.
double greatest_gain_without(double softness, const Evidence& evidence) {
    double gain = 0.0;
    for (const Probe& probe : evidence.probes)
        for (const Answer& answer : probe.answers)
            if (answer.state == State::ok)
                gain += std::log(std::hypot(1.0, softness * answer.value / answer.deviation));
    return gain;
}

} // namespace

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

Matrix covariance_of(const Mode& mode) {
    const Eigen::Index size = mode.unknowns.size();
    return mode.information.llt().solve(Matrix::Identity(size, size));
}

Mode find_mode(Primitive primitive, const Component& component, const CoilPrior& prior,
               const Evidence& evidence, const Values& start, double hopeless) {
    return search(primitive, component, prior, evidence, 0.0, start, hopeless, 0);
}

std::optional<Values> rough_place(Primitive primitive, const Component& component, const CoilPrior& prior,
                                  const Evidence& evidence, const Values& start, double hopeless) {
    constexpr double a_third = 0.33;
    const Mode mode = search(primitive, component, prior, evidence, a_third, start,
                             hopeless - greatest_gain_without(a_third, evidence), roaming_patience);
    if (mode.abandoned) return std::nullopt;
    return values_at(component, mode.unknowns);
}

std::optional<Place> roam(Primitive primitive, const Component& component, const CoilPrior& prior,
                          const Evidence& evidence, const Values& start, double hopeless) {
    const Mode mode = search(primitive, component, prior, evidence, 0.0, start, hopeless, roaming_patience);
    if (mode.abandoned) return std::nullopt;
    return Place{values_at(component, mode.unknowns), mode.log_evidence};
}

} // namespace coilward
