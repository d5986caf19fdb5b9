#include "diagnosis/mode.h"

#include "diagnosis/answer_likelihood.h"
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
constexpr double hoped_share = 5.0;
// Steps that a roaming search may take before it is asked whether there is hope.
constexpr int roaming_patience = 4;
constexpr double most_piece_deviations = 3.5;
constexpr double settled_decrement = 3e-2; // of −ln(posterior): far below what moves a probability

/// −ln(posterior) at a point, with its derivatives.
struct Objective {
    double cost = 0.0;
    Vector gradient;
    Matrix information; ///< only its lower triangle
};

class Search {
public:
    Search(Primitive primitive, const Component& component, const CoilPrior& prior, const Evidence& evidence,
           double softness = 0.0)
        : primitive_(primitive), component_(component), prior_(prior), evidence_(evidence),
          softness_(softness), count_(static_cast<Eigen::Index>(unknowns_of(component))) {
        for (Eigen::Index k = 0; k < count_; ++k)
            parameters_[static_cast<std::size_t>(k)] =
                static_cast<std::size_t>(parameter_of(unknown_at(component, static_cast<std::size_t>(k))));
    }

    Mode run(const Values& start, double hopeless, int patience) {
        Vector x = starting_point(start);
        Objective here = objective(x);
        Mode mode;
        for (int step = 0; step < most_steps; ++step) {
            const Eigen::LLT<Matrix> factored(here.information);
            mode.log_evidence = -here.cost - factored.matrixLLT().diagonal().array().log().sum();
            const Vector move = factored.solve(-here.gradient);
            const double decrement = -0.5 * here.gradient.dot(move);
            const bool no_way_on = !std::isfinite(decrement) || strays(x, move);
            const bool no_hope = step >= patience && mode.log_evidence + hoped_share * decrement < hopeless;
            if (no_way_on || no_hope) {
                mode.abandoned = true;
                return mode;
            }
            if (decrement < settled_decrement) {
                mode.log_evidence += decrement; // what is left to gain
                break;
            }
            if (!descend(x, here, move)) break;
        }
        mode.unknowns = x;
        mode.information = here.information.selfadjointView<Eigen::Lower>();
        return mode;
    }

private:
    /// True where a severity's piece is pulled out of its place for the second time: a neighbouring piece
    /// stands where the readings want it, and this one has no weight there.
    bool strays(const Vector& x, const Vector& move) const {
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
    Vector starting_point(const Values& start) const {
        Vector x(count_);
        for (Eigen::Index k = 0; k < count_; ++k)
            x[k] = at(start, unknown_at(component_, static_cast<std::size_t>(k)));
        for (std::size_t s = 0; s < component_.severity_count; ++s) {
            const SeverityPrior& severity = component_.severities[s];
            if (!severity.is_piece) continue;
            double& value = x[static_cast<Eigen::Index>(coil_unknown_count + s)];
            value = std::clamp(value, severity.mean - severity.deviation, severity.mean + severity.deviation);
        }
        return x;
    }

    /// Takes the step, halved until it helps. False where even a short one does not.
    bool descend(Vector& x, Objective& here, const Vector& move) const {
        for (double part = 1.0; part > 0.02; part *= 0.4) {
            const Vector there_x = within_bounds(x + part * move);
            Objective there = objective(there_x);
            if (std::isfinite(there.cost) && there.cost < here.cost) {
                x = there_x;
                here = std::move(there);
                return true;
            }
        }
        return false;
    }

    Vector within_bounds(Vector x) const {
        for (Eigen::Index k = 0; k < count_; ++k) {
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

    Objective objective(const Vector& x) const {
        Objective result{0.0, Vector::Zero(count_), Matrix::Zero(count_, count_)};
        add_prior(result, x);
        const Values values = values_at(component_, x);
        const CircuitUnderTest circuit = circuit_of(primitive_, values);
        for (const Probe& probe : evidence_.probes)
            add_probe(result, circuit, probe);
        for (const PlainAnswer& answer : evidence_.temperatures)
            add_temperature(result, answer, at(values, Unknown::temperature));
        for (const PlainAnswer& answer : evidence_.resonances)
            add_resonance(result, circuit, answer);
        return result;
    }

    void add_prior(Objective& result, const Vector& x) const {
        constexpr auto coil = static_cast<Eigen::Index>(coil_unknown_count);
        Vector offset(coil);
        for (Eigen::Index k = 0; k < coil; ++k)
            offset[k] = x[k] - prior_.mean[static_cast<std::size_t>(k)];
        const Vector pull = prior_.precision.lazyProduct(offset); // too small for blocks
        result.cost += 0.5 * offset.dot(pull);
        result.gradient.head(coil) += pull;
        result.information.topLeftCorner(coil, coil) += prior_.precision;
        for (std::size_t s = 0; s < component_.severity_count; ++s) {
            const SeverityPrior& severity = component_.severities[s];
            const Eigen::Index k = coil + static_cast<Eigen::Index>(s);
            const double z = (x[k] - severity.mean) / severity.deviation;
            result.cost += 0.5 * z * z + std::log(severity.deviation);
            result.gradient[k] += z / severity.deviation;
            result.information(k, k) += 1.0 / (severity.deviation * severity.deviation);
        }
    }

    void add_probe(Objective& result, const CircuitUnderTest& circuit, const Probe& probe) const {
        const auto z = impedance_with_gradient(circuit.coil, circuit.fault, probe.port, probe.frequency_hz);
        const double omega = 2.0 * std::numbers::pi * probe.frequency_hz;
        for (const Answer& answer : probe.answers) {
            const LookedAt look = looked_at(answer, z.impedance_ohm, omega);
            const ReadForm& form = look.form;
            Vector direction(count_);
            for (Eigen::Index k = 0; k < count_; ++k) {
                const auto& dz = z.derivative[parameters_[static_cast<std::size_t>(k)]];
                direction[k] = form.weight.real() * dz.real() - form.weight.imag() * dz.imag();
            }
            add(result,
                judge(answer, look,
                      model_variance(form, z, squared_errors_at(probe.frequency_hz, answer.repeats_earlier)) +
                          softening(answer, look.scale)),
                direction);
        }
    }

    double softening(const Answer& answer, Scale scale) const {
        const double softened = scale == Scale::logarithm ? softness_ : softness_ * answer.value;
        return softened * softened;
    }

    void add_temperature(Objective& result, const PlainAnswer& answer, double temperature_c) const {
        Vector direction = Vector::Zero(count_);
        direction[static_cast<Eigen::Index>(Unknown::temperature)] = 1.0;
        add(result, judge(answer, temperature_c), direction);
    }

    void add_resonance(Objective& result, const CircuitUnderTest& circuit, const PlainAnswer& answer) const {
        // A coil without a peak cannot show one: the likelihood is that of a number ten deviations off.
        constexpr double no_peak_cost = 50.0;
        const auto resonance = resonance_near(circuit, answer.value);
        if (!resonance) {
            result.cost += no_peak_cost + std::log(answer.deviation);
            return;
        }
        Vector direction(count_);
        for (Eigen::Index k = 0; k < count_; ++k)
            direction[k] =
                resonance->frequency_hz * resonance->log_slope[parameters_[static_cast<std::size_t>(k)]];
        add(result, judge(answer, resonance->frequency_hz), direction);
    }

    static void add(Objective& result, const Judgement& judgement, const Vector& direction) {
        result.cost += judgement.cost;
        result.gradient += judgement.slope * direction;
        for (Eigen::Index k = 0; k < direction.size(); ++k) {
            if (direction[k] == 0.0) continue; // at direct current most are
            const Eigen::Index rest = direction.size() - k;
            result.information.col(k).tail(rest) += judgement.curvature * direction[k] * direction.tail(rest);
        }
    }

    Primitive primitive_;
    const Component& component_;
    const CoilPrior& prior_;
    const Evidence& evidence_;
    double softness_; ///< relative uncertainty that every answer through the coil has at least
    Eigen::Index count_;
    std::array<std::size_t, most_unknowns> parameters_{};
};

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

Mode find_mode(Primitive primitive, const Component& component, const CoilPrior& prior,
               const Evidence& evidence, const Values& start, double hopeless) {
    return Search(primitive, component, prior, evidence).run(start, hopeless, 0);
}

Values rough_place(Primitive primitive, const Component& component, const CoilPrior& prior,
                   const Evidence& evidence, const Values& start) {
    constexpr double a_third = 0.33;
    constexpr double never = -std::numeric_limits<double>::infinity();
    const Mode mode = Search(primitive, component, prior, evidence, a_third).run(start, never, most_steps);
    return mode.abandoned ? start : values_at(component, mode.unknowns);
}

std::optional<Place> roam(Primitive primitive, const Component& component, const CoilPrior& prior,
                          const Evidence& evidence, const Values& start, double hopeless) {
    const Mode mode = Search(primitive, component, prior, evidence).run(start, hopeless, roaming_patience);
    if (mode.abandoned) return std::nullopt;
    return Place{values_at(component, mode.unknowns), mode.log_evidence};
}

} // namespace coilward
