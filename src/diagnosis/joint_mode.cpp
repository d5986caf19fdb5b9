#include "diagnosis/joint_mode.h"

#include "coil/joined_coils.h"
#include "diagnosis/answer_likelihood.h"
#include "diagnosis/descent.h"
#include "diagnosis/model_error.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <Eigen/Cholesky>

namespace coilward {
namespace {

constexpr int most_steps = 8;
constexpr double settled_decrement = 0.03;
constexpr int most_joint_unknowns =
    2 * static_cast<int>(coil_unknown_count) + 1 + static_cast<int>(Component::most_severities);
/// What a coil's model says of its capacitance to the frame is off by so much in the whole (a logarithm): one
/// frame lies behind both coils, and carries a broken coil's current past the break into the other's
/// capacitance as well. Of two coils alike, one broken in the middle: 1/4 of the capacitance becomes 3/8.
constexpr double frame_of_two = 0.4;
constexpr auto coil_count = static_cast<Eigen::Index>(coil_unknown_count);
constexpr Eigen::Index coupling_place = 2 * coil_count;
constexpr Eigen::Index severity_place = coupling_place + 1;

using JointVector = Eigen::Matrix<double, Eigen::Dynamic, 1, Eigen::ColMajor, most_joint_unknowns, 1>;
using JointMatrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::ColMajor,
                                  most_joint_unknowns, most_joint_unknowns>;

using JointObjective = Objective<JointVector, JointMatrix>;

/// How the whole's impedance answers a move of each unknown: first coil's, second coil's, ln|k|, severities.
struct Slopes {
    JoinedImpedance whole;
    Eigen::Matrix<std::complex<double>, Eigen::Dynamic, 1, Eigen::ColMajor, most_joint_unknowns, 1>
        by_unknown;
};

class JointSearch {
public:
    JointSearch(const JointHypothesis& hypothesis, const Evidence& evidence)
        : hypothesis_(hypothesis), evidence_(evidence),
          count_(severity_place + static_cast<Eigen::Index>(hypothesis.piece.severity_count)),
          prior_mean_(count_), prior_precision_(JointMatrix::Zero(count_, count_)) {
        take_coil(hypothesis.first, 0);
        take_coil(hypothesis.second, coil_count);
        take(coupling_place, hypothesis.log_coupling, hypothesis.log_coupling_deviation);
        for (std::size_t s = 0; s < hypothesis.piece.severity_count; ++s) {
            const SeverityPrior& severity = hypothesis.piece.severities[s];
            take(severity_place + static_cast<Eigen::Index>(s), severity.mean, severity.deviation);
        }
    }

    struct Settled {
        JointVector x;
        JointObjective objective;
    };

    Settled settled() const {
        Settled at{prior_mean_, objective(prior_mean_)};
        for (int step = 0;; ++step) {
            const Eigen::LLT<JointMatrix> factored(at.objective.information);
            const JointVector move = factored.solve(-at.objective.gradient);
            const double decrement = -0.5 * at.objective.gradient.dot(move);
            const bool done = step == most_steps || !(decrement > settled_decrement);
            if (done || !descend(*this, at.x, at.objective, move)) return at;
        }
    }

    double log_evidence() const {
        const JointObjective end = settled().objective;
        return half_log_determinant(prior_precision_) - end.cost - half_log_determinant(end.information);
    }

    Slopes slopes_at(const JointVector& x, double frequency_hz) const {
        Slopes slopes;
        slopes.whole = impedance_of(coils_at(x), frequency_hz);
        slopes.by_unknown.resize(count_);
        for (Eigen::Index k = 0; k < coil_count; ++k) {
            const auto p = static_cast<std::size_t>(parameter_of(static_cast<Unknown>(k)));
            slopes.by_unknown[k] = slopes.whole.by_first * slopes.whole.first.derivative[p];
            slopes.by_unknown[coil_count + k] = slopes.whole.by_second * slopes.whole.second.derivative[p];
        }
        slopes.by_unknown[coupling_place] = slopes.whole.by_log_coupling;
        for (Eigen::Index k = severity_place; k < count_; ++k)
            slopes.by_unknown[k] = numeric_slope(x, k, frequency_hz, slopes.whole.impedance_ohm);
        return slopes;
    }

    JointVector within_bounds(JointVector x) const {
        const auto clamp = [&](Eigen::Index place, Unknown unknown) {
            const Bounds bounds = bounds_of(unknown);
            x[place] = std::clamp(x[place], bounds.low, bounds.high);
        };
        for (Eigen::Index k = 0; k < coil_count; ++k) {
            clamp(k, static_cast<Unknown>(k));
            clamp(coil_count + k, static_cast<Unknown>(k));
        }
        for (std::size_t s = 0; s < hypothesis_.piece.severity_count; ++s)
            clamp(severity_place + static_cast<Eigen::Index>(s), hypothesis_.piece.severities[s].unknown);
        return x;
    }

    JointObjective objective(const JointVector& x) const {
        const JointVector offset = x - prior_mean_;
        const JointVector pull = prior_precision_ * offset;
        JointObjective result{0.5 * offset.dot(pull), pull, prior_precision_};
        for (const Probe& probe : evidence_.probes)
            if (probe.port == CoilPort::leads) add_probe(result, x, probe);
        return result;
    }

private:
    void take_coil(const CoilState& state, Eigen::Index place) {
        for (Eigen::Index k = 0; k < coil_count; ++k)
            prior_mean_[place + k] = state.values[static_cast<std::size_t>(k)];
        prior_precision_.block(place, place, coil_count, coil_count) =
            state.precision.topLeftCorner(coil_count, coil_count);
    }

    void take(Eigen::Index place, double mean, double deviation) {
        prior_mean_[place] = mean;
        prior_precision_(place, place) = 1.0 / (deviation * deviation);
    }

    static CircuitUnderTest circuit_at(const CoilState& state, const JointVector& x, Eigen::Index place) {
        Values values = state.values;
        for (Eigen::Index k = 0; k < coil_count; ++k)
            values[static_cast<std::size_t>(k)] = x[place + k];
        return circuit_of(state.fault->primitive, values);
    }

    JoinedCoils coils_at(const JointVector& x) const {
        const CircuitUnderTest first = circuit_at(hypothesis_.first, x, 0);
        const CircuitUnderTest second = circuit_at(hypothesis_.second, x, coil_count);
        Values joint = hypothesis_.piece.fixed;
        for (std::size_t s = 0; s < hypothesis_.piece.severity_count; ++s)
            at(joint, hypothesis_.piece.severities[s].unknown) =
                x[severity_place + static_cast<Eigen::Index>(s)];
        return {.first = first.coil,
                .first_fault = first.fault,
                .second = second.coil,
                .second_fault = second.fault,
                .in_series = hypothesis_.in_series,
                .coupling = hypothesis_.sense * std::min(std::exp(x[coupling_place]), 0.95),
                .joint = circuit_of(hypothesis_.change, joint).fault};
    }

    std::complex<double> numeric_slope(JointVector x, Eigen::Index k, double frequency_hz,
                                       std::complex<double> here) const {
        constexpr double step = 1e-4; // of a logarithm
        x[k] += step;
        return (impedance_of(coils_at(x), frequency_hz).impedance_ohm - here) / step;
    }

    void add_probe(JointObjective& result, const JointVector& x, const Probe& probe) const {
        const Slopes slopes = slopes_at(x, probe.frequency_hz);
        const double omega = 2.0 * std::numbers::pi * probe.frequency_hz;
        for (const Answer& answer : probe.answers) {
            const LookedAt look = looked_at(answer, slopes.whole.impedance_ohm, omega);
            const JointVector direction = (look.form.weight * slopes.by_unknown).real();
            const Judgement judgement =
                judge(answer, look, joint_model_variance(look.form, slopes.whole, probe));
            result.cost += judgement.cost();
            result.gradient += judgement.slope * direction;
            result.information += (judgement.curvature * direction) * direction.transpose();
        }
    }

    /// Each coil's model errs for itself, and that of both for the frame that they share.
    static double joint_model_variance(const ReadForm& form, const JoinedImpedance& whole,
                                       const Probe& probe) {
        SquaredErrors errors = squared_errors_at(probe.frequency_hz, false);
        errors[static_cast<std::size_t>(Parameter::frame_capacitance)] = frame_of_two * frame_of_two;
        return model_variance(slopes_of({form.value, form.weight * whole.by_first}, whole.first), errors) +
               model_variance(slopes_of({form.value, form.weight * whole.by_second}, whole.second), errors);
    }

    const JointHypothesis& hypothesis_;
    const Evidence& evidence_;
    Eigen::Index count_;
    JointVector prior_mean_;
    JointMatrix prior_precision_;
};

} // namespace

double log_evidence(const JointHypothesis& hypothesis, const Evidence& of_the_whole) {
    return JointSearch(hypothesis, of_the_whole).log_evidence();
}

JointPrediction predict_whole(const JointHypothesis& hypothesis, const Evidence& of_the_whole,
                              const Answer& answer, double frequency_hz) {
    const JointSearch search(hypothesis, of_the_whole);
    const auto mode = search.settled();
    const Slopes slopes = search.slopes_at(mode.x, frequency_hz);
    const auto form = *read_form(answer.quantity, answer.circuit, slopes.whole.impedance_ohm,
                                 2.0 * std::numbers::pi * frequency_hz);
    const JointVector direction = (form.weight * slopes.by_unknown).real();
    const JointVector spread = mode.objective.information.llt().solve(direction);
    return {form.value, direction.dot(spread)};
}

} // namespace coilward
