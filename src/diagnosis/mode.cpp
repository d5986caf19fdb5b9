#include "diagnosis/mode.h"

#include "coil/impedances.h"
#include "diagnosis/answer_likelihood.h"
#include "diagnosis/bordered.h"
#include "diagnosis/descent.h"
#include "diagnosis/log_sum.h"
#include "diagnosis/model_error.h"
#include "diagnosis/resonance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>

namespace coilward {
namespace {

constexpr int most_steps = 12;
// From far away a step may gain this many times what its quadratic says.
constexpr double hoped_share = 3.0;
constexpr double longest_leap = 4.0; // of a severity's logarithm: a factor of 55
// Steps that a roaming search may take before it is asked whether there is hope.
constexpr int roaming_steps = 2;
constexpr double most_piece_deviations = 3.5;
// A search that gains less than this part of what its quadratic says, so many times in a row, or nothing at
// all, is stuck.
constexpr double least_share_gained = 0.1;
constexpr int most_poor_steps = 2;
// The pieces beside one where a search is stuck so far (in nats) below what matters do not lead there either.
constexpr double reach_of_neighbours = 300.0;
// Of −ln(posterior). What is left to gain then is added as the last quadratic says.
constexpr double settled_decrement = 0.2;
// A rough search goes nearer, since the next begins where it ends.
constexpr double rough_settled_decrement = 0.03;

/// Those at the front that one solution of the network serves.
std::span<const Probe> of_one_frequency(std::span<const Probe> probes) {
    std::size_t count = 1;
    while (count < std::min(probes.size(), port_count) &&
           probes[count].frequency_hz == probes.front().frequency_hz)
        ++count;
    return probes.first(count);
}

/// What the ports of probes of one frequency show.
void see(const CircuitUnderTest& circuit, std::span<const Probe> probes,
         std::span<ImpedanceWithGradient, port_count> seen) {
    std::array<CoilPort, port_count> ports;
    std::ranges::transform(probes, ports.begin(), &Probe::port);
    impedances_with_gradient(circuit.coil, circuit.fault, probes.front().frequency_hz,
                             std::span(ports).first(probes.size()), seen);
}

using Here = Objective<Vector, Bordered>;

/// A search over the coil's unknowns and a component's severities.
class Search {
public:
    Search(Primitive primitive, const Component& component, const CoilPrior& prior, const Evidence& evidence,
           double softness)
        : primitive_(primitive), component_(component), prior_(prior), evidence_(evidence),
          severity_count_(static_cast<Eigen::Index>(component.severity_count)),
          prior_precision_(prior.precision), softness_(softness), lowest_(coil_count + severity_count_),
          highest_(lowest_.size()) {
        for (Eigen::Index k = 0; k < lowest_.size(); ++k) {
            const Bounds bounds = bounds_of(unknown_at(component, static_cast<std::size_t>(k)));
            lowest_[k] = bounds.low;
            highest_[k] = bounds.high;
        }
        for (std::size_t s = 0; s < component.severity_count; ++s) {
            severity_parameters_[s] = static_cast<std::size_t>(parameter_of(component.severities[s].unknown));
            const SeverityPrior& severity = component.severities[s];
            log_severity_deviations_ += std::log(severity.deviation);
            if (!severity.is_piece) continue;
            const Eigen::Index k = coil_count + static_cast<Eigen::Index>(s);
            const double edge = most_piece_deviations * severity.deviation;
            lowest_[k] = std::max(lowest_[k], severity.mean - edge);
            highest_[k] = std::min(highest_[k], severity.mean + edge);
        }
    }

    /// For the first `trusting_steps` the predicted gain says nothing against the search.
    Mode run(const Values& start, const Patience& patience, int trusting_steps) {
        Vector x = starting_point(start);
        Here here = objective(x);
        Mode mode;
        int poor_steps = 0; // one after the other
        for (int step = 0; step < most_steps; ++step) {
            const BorderedCholesky factored(here.information);
            mode.log_evidence = -here.cost - factored.half_log_determinant();
            const Vector freely = factored.solve(-here.gradient);
            const Vector move = kept_inside(freely, x, here);
            const double decrement = -0.5 * here.gradient.dot(move);
            const bool no_way_on =
                !std::isfinite(mode.log_evidence) || !std::isfinite(decrement) || strays(x, freely);
            const bool no_hope =
                step >= trusting_steps && mode.log_evidence + hoped_share * decrement < patience.hopeless;
            if (no_way_on || no_hope) return {.abandoned = true};
            if (decrement < (softness_ > 0.0 ? rough_settled_decrement : settled_decrement)) {
                mode.log_evidence += decrement; // what is left to gain
                break;
            }
            const double before = here.cost;
            const bool moved = descend(*this, x, here, shortened(move));
            poor_steps = before - here.cost < least_share_gained * decrement ? poor_steps + 1 : 0;
            const bool stuck = !moved || poor_steps >= most_poor_steps;
            if (stuck && mode.log_evidence < patience.hopeless - patience.reach_of_stuck)
                return {.abandoned = true};
            if (!moved) break;
        }
        mode.unknowns = x;
        mode.information = here.information;
        return mode;
    }

    Vector within_bounds(const Vector& x) const { return x.cwiseMax(lowest_).cwiseMin(highest_); }

    Here objective(const Vector& x) const {
        Here result{log_severity_deviations_, Vector::Zero(x.size()), {prior_precision_, severity_count_}};
        LogOfProduct squared_widths;
        add_prior(result, x);
        const Values values = values_at(component_, x);
        const CircuitUnderTest circuit = circuit_of(primitive_, values);
        std::array<ImpedanceWithGradient, port_count> seen;
        for (std::span<const Probe> probes = evidence_.probes; !probes.empty();) {
            const std::span<const Probe> together = of_one_frequency(probes);
            see(circuit, together, seen);
            for (std::size_t i = 0; i < together.size(); ++i)
                add_probe(result, squared_widths, seen[i], together[i]);
            probes = probes.subspan(together.size());
        }
        for (const PlainAnswer& answer : evidence_.temperatures)
            add_temperature(result, squared_widths, answer, at(values, Unknown::temperature));
        for (const PlainAnswer& answer : evidence_.resonances)
            add_resonance(result, squared_widths, circuit, answer);
        result.cost += 0.5 * squared_widths.value();
        return result;
    }

private:
    const SeverityPrior& severity_at(Eigen::Index s) const {
        return component_.severities[static_cast<std::size_t>(s)];
    }

    /// True where unknown k stands at a bound and the move pushes it against it.
    bool is_held(Eigen::Index k, const Vector& x, const Vector& move) const {
        const Bounds bounds = bounds_of(unknown_at(component_, static_cast<std::size_t>(k)));
        return (x[k] <= bounds.low && move[k] < 0.0) || (x[k] >= bounds.high && move[k] > 0.0);
    }

    /// The step of those unknowns that may move, where others are held by their bounds (an active set; J.
    /// Nocedal and S. J. Wright, Numerical Optimization, 2006, ch. 16.7).
    Vector kept_inside(Vector move, const Vector& x, const Here& here) const {
        if (within_bounds(x + move) == x + move) return move;
        constexpr int most_rounds = 3; // each can push others against theirs
        Here free = here;
        for (int round = 0; round < most_rounds; ++round) {
            bool held_more = false;
            for (Eigen::Index k = 0; k < x.size(); ++k) {
                if (!is_held(k, x, move)) continue;
                free.information.pin(k);
                free.gradient[k] = 0.0;
                held_more = true;
            }
            if (!held_more) break;
            move = BorderedCholesky(free.information).solve(-free.gradient);
        }
        return move;
    }

    /// No severity may leap further than the quadratic can be trusted.
    Vector shortened(const Vector& move) const {
        double leap = 0.0;
        for (Eigen::Index s = 0; s < severity_count_; ++s)
            leap = std::max(leap, std::abs(move[coil_count + s]));
        if (leap > longest_leap) return move * (longest_leap / leap);
        return move;
    }

    /// True where a severity's piece is pulled out of its place for the second time: a neighbouring piece
    /// stands where the readings want it, and this one has no weight there.
    bool strays(const Vector& x, const Vector& move) const {
        for (Eigen::Index s = 0; s < severity_count_; ++s) {
            const SeverityPrior& severity = severity_at(s);
            if (!severity.is_piece) continue;
            const Eigen::Index k = coil_count + s;
            const double edge = most_piece_deviations * severity.deviation;
            if (std::abs(x[k] - severity.mean) >= 0.999 * edge &&
                std::abs(x[k] + move[k] - severity.mean) > edge)
                return true;
        }
        return false;
    }

    /// `start`, with each piece's severity brought near the piece.
    Vector starting_point(const Values& start) const {
        Vector x(coil_count + severity_count_);
        for (Eigen::Index k = 0; k < x.size(); ++k)
            x[k] = at(start, unknown_at(component_, static_cast<std::size_t>(k)));
        for (Eigen::Index s = 0; s < severity_count_; ++s) {
            const SeverityPrior& severity = severity_at(s);
            if (!severity.is_piece) continue;
            double& value = x[coil_count + s];
            value = std::clamp(value, severity.mean - severity.deviation, severity.mean + severity.deviation);
        }
        return x;
    }

    /// All but the coil's precision, which the information begins with.
    void add_prior(Here& result, const Vector& x) const {
        const CoilPoint offset = x.head<coil_count>() - CoilPoint::Map(prior_.mean.data());
        const CoilPoint pull = prior_precision_.lazyProduct(offset);
        result.cost += 0.5 * offset.dot(pull);
        result.gradient.head<coil_count>() = pull;
        for (Eigen::Index s = 0; s < severity_count_; ++s) {
            const SeverityPrior& severity = severity_at(s);
            const double z = (x[coil_count + s] - severity.mean) / severity.deviation;
            result.cost += 0.5 * z * z;
            result.gradient[coil_count + s] = z / severity.deviation;
            result.information.corner(s, s) = 1.0 / (severity.deviation * severity.deviation);
        }
    }

    void add_probe(Here& result, LogOfProduct& squared_widths, const ImpedanceWithGradient& z,
                   const Probe& probe) const {
        const double omega = 2.0 * std::numbers::pi * probe.frequency_hz;
        for (const Answer& answer : probe.answers) {
            const LookedAt look = looked_at(answer, z.impedance_ohm, omega);
            const ParameterSlopes slopes = slopes_of(look.form, z);
            const SquaredErrors& errors = squared_errors_at(probe.frequency_hz, answer.repeats_earlier);
            const double variance = model_variance(slopes, errors) + softening(answer, look.scale);
            add(result, squared_widths, judge(answer, look, variance), direction_of(slopes));
        }
    }

    /// What a reading's slopes by the parameters are by the unknowns: every coil's are the first parameters.
    BorderedDirection direction_of(const ParameterSlopes& slopes) const {
        static_assert(static_cast<int>(Unknown::temperature) == static_cast<int>(Parameter::temperature));
        BorderedDirection direction{CoilPoint::Map(slopes.data())};
        for (std::size_t s = 0; s < component_.severity_count; ++s)
            direction.severities[static_cast<Eigen::Index>(s)] = slopes[severity_parameters_[s]];
        return direction;
    }

    double softening(const Answer& answer, Scale scale) const {
        const double softened = scale == Scale::logarithm ? softness_ : softness_ * answer.value;
        return softened * softened;
    }

    static void add_temperature(Here& result, LogOfProduct& squared_widths, const PlainAnswer& answer,
                                double temperature_c) {
        constexpr auto k = static_cast<Eigen::Index>(Unknown::temperature);
        const Judgement judgement = judge(answer, temperature_c);
        result.cost += judgement.exponent;
        squared_widths.multiply(judgement.squared_width);
        result.gradient[k] += judgement.slope;
        result.information.coil(k, k) += judgement.curvature;
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
        ParameterSlopes slopes = resonance->log_slope;
        for (double& slope : slopes)
            slope *= resonance->frequency_hz;
        add(result, squared_widths, judge(answer, resonance->frequency_hz), direction_of(slopes));
    }

    void add(Here& result, LogOfProduct& squared_widths, const Judgement& judgement,
             const BorderedDirection& direction) const {
        result.cost += judgement.exponent;
        squared_widths.multiply(judgement.squared_width);
        result.gradient.head<coil_count>() += judgement.slope * direction.coil;
        for (Eigen::Index s = 0; s < severity_count_; ++s)
            result.gradient[coil_count + s] += judgement.slope * direction.severities[s];
        result.information.add_square(judgement.curvature, direction);
    }

    Primitive primitive_;
    const Component& component_;
    const CoilPrior& prior_;
    const Evidence& evidence_;
    Eigen::Index severity_count_;
    CoilSquare prior_precision_;
    double log_severity_deviations_ = 0.0;
    double softness_; ///< relative uncertainty that every answer through the coil has at least
    Vector lowest_;   ///< what an unknown may be at least: its bound, or the edge of its piece
    Vector highest_;
    std::array<std::size_t, Component::most_severities> severity_parameters_{};
};

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
    return inverse(mode.information.whole());
}

Mode find_mode(Primitive primitive, const Component& component, const CoilPrior& prior,
               const Evidence& evidence, const Values& start, double hopeless) {
    return Search(primitive, component, prior, evidence, 0.0).run(start, {hopeless, reach_of_neighbours}, 0);
}

std::optional<Values> rough_place(Primitive primitive, const Component& component, const CoilPrior& prior,
                                  const Evidence& evidence, const Values& start, const Patience& patience) {
    constexpr double a_third = 0.33;
    const Patience for_rough{patience.hopeless - greatest_gain_without(a_third, evidence),
                             patience.reach_of_stuck};
    const Mode mode =
        Search(primitive, component, prior, evidence, a_third).run(start, for_rough, roaming_steps);
    if (mode.abandoned) return std::nullopt;
    return values_at(component, mode.unknowns);
}

std::optional<WideMode> roam(Primitive primitive, const Component& component, const CoilPrior& prior,
                             const Evidence& evidence, const Values& start, const Patience& patience) {
    const Mode mode = Search(primitive, component, prior, evidence, 0.0).run(start, patience, roaming_steps);
    if (mode.abandoned) return std::nullopt;
    return WideMode{values_at(component, mode.unknowns), mode.log_evidence};
}

} // namespace coilward
