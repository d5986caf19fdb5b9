#include "diagnosis/next_reading.h"

#include "diagnosis/prediction.h"
#include "metrology/normal.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace coilward {
namespace {

constexpr double least_gain_bits = 0.004;
constexpr double least_probability = 1e-3; // of a fault that is worth a forecast
constexpr std::size_t most_explanations = 3;

/// What one explanation expects a reading to show, on a scale that is linear near 0 and logarithmic far from
/// it, so that ohms, gigaohms and negative inductances find room on one axis.
struct Forecast {
    std::size_t fault = 0;
    double weight = 0.0;
    double mean = 0.0;
    double deviation = 1.0;
};

/// Five-point Gauss-Hermite quadrature for a standard normal weight (Abramowitz and Stegun, table 25.10).
struct Node {
    double z;
    double weight;
};

constexpr std::array<Node, 5> nodes{{{-2.856970013872806, 0.011257411327721},
                                     {-1.355626179974266, 0.222075922005613},
                                     {0.0, 0.533333333333333},
                                     {1.355626179974266, 0.222075922005613},
                                     {2.856970013872806, 0.011257411327721}}};

Reading question_of(const BenchReading& bench) {
    Reading question{.quantity = bench.quantity, .between = bench.between};
    question.frequency_hz = bench.frequency_hz;
    return question;
}

/// Already answered: the same quantity at the same points, near the same frequency.
bool is_taken(const Reading& question, const std::vector<Reading>& taken) {
    return std::ranges::any_of(taken, [&](const Reading& reading) {
        return reading.quantity == question.quantity && reading.between == question.between &&
               reading.frequency_hz == question.frequency_hz;
    });
}

/// Predicted values of one reading by every explanation, with what they do not know of the coil.
class Forecasting {
public:
    Forecasting(const Posterior& posterior) {
        for (std::size_t fault = 0; fault < posterior.size(); ++fault) {
            const FaultPosterior& candidate = posterior[fault];
            if (candidate.probability < least_probability) continue;
            if (candidate.explanations.empty()) unlisted_ = {fault, candidate.probability, 0.0, 1.0};
            const std::size_t count = std::min(most_explanations, candidate.explanations.size());
            double kept = 0.0;
            for (std::size_t i = 0; i < count; ++i)
                kept += candidate.explanations[i].weight;
            for (std::size_t i = 0; i < count; ++i) {
                const Explanation& e = candidate.explanations[i];
                sources_.push_back({fault, candidate.probability * e.weight / kept,
                                    candidate.fault->primitive, values_at(e.component, e.mode.unknowns),
                                    e.component, covariance_of(e.mode)});
            }
        }
    }

    std::vector<Forecast> of(const Reading& question, const BenchReading& bench) const {
        std::vector<Shown> shown;
        for (const Source& source : sources_)
            shown.push_back(shown_by(source, question, bench));
        const double scale = scale_of(shown);
        std::vector<Forecast> forecasts;
        for (std::size_t i = 0; i < shown.size(); ++i)
            forecasts.push_back({sources_[i].fault, sources_[i].weight, std::asinh(shown[i].value / scale),
                                 shown[i].deviation / std::hypot(shown[i].value, scale)});
        if (unlisted_.weight > 0.0 && !forecasts.empty())
            forecasts.push_back({unlisted_.fault, unlisted_.weight, forecasts.front().mean, 3.0});
        return forecasts;
    }

private:
    struct Source {
        std::size_t fault = 0;
        double weight = 0.0;
        Primitive primitive{};
        Values values{};
        Component component;
        Matrix covariance;
    };

    struct Shown {
        double value = 0.0;
        double deviation = 0.0;
    };

    static Shown shown_by(const Source& source, const Reading& question, const BenchReading& bench) {
        const auto prediction = predict(question, source.primitive, source.values);
        if (!prediction) return {0.0, 1.0};
        Vector slope(source.covariance.rows());
        for (Eigen::Index k = 0; k < slope.size(); ++k)
            slope[k] = prediction->slope[static_cast<std::size_t>(
                unknown_at(source.component, static_cast<std::size_t>(k)))];
        const double meter =
            std::hypot(bench.relative_uncertainty * prediction->value, bench.absolute_uncertainty);
        Shown shown{prediction->value, std::hypot(std::sqrt(slope.dot(source.covariance * slope)), meter)};
        // Past the end of the meter's range every value looks the same.
        if (bench.range_limit && std::abs(shown.value) > *bench.range_limit)
            shown = {std::copysign(*bench.range_limit, shown.value), 0.05 * *bench.range_limit};
        return shown;
    }

    static double scale_of(const std::vector<Shown>& shown) {
        double least = 1e300;
        for (const Shown& s : shown)
            if (s.value != 0.0) least = std::min(least, std::abs(s.value));
        return 0.1 * least;
    }

    std::vector<Source> sources_;
    Forecast unlisted_;
};

double density(const std::vector<Forecast>& forecasts, double place) {
    double sum = 0.0;
    for (const Forecast& f : forecasts)
        sum += f.weight * normal_density((place - f.mean) / f.deviation) / f.deviation;
    return sum;
}

double density_of_fault(const std::vector<Forecast>& forecasts, std::size_t fault, double place) {
    double sum = 0.0;
    double weight = 0.0;
    for (const Forecast& f : forecasts) {
        if (f.fault != fault) continue;
        sum += f.weight * normal_density((place - f.mean) / f.deviation) / f.deviation;
        weight += f.weight;
    }
    return sum / weight;
}

/// Mutual information between the fault and the reading: E[ln p(y | fault) − ln p(y)].
double gain_bits(const std::vector<Forecast>& forecasts) {
    double whole = 0.0;
    for (const Forecast& f : forecasts)
        whole += f.weight;
    double nats = 0.0;
    for (const Forecast& f : forecasts)
        for (const Node& node : nodes) {
            const double place = f.mean + node.z * f.deviation;
            nats += f.weight / whole * node.weight *
                    std::log(density_of_fault(forecasts, f.fault, place) * whole / density(forecasts, place));
        }
    return std::max(0.0, nats / std::numbers::ln2);
}

double polarity_gain_bits(const Posterior& posterior) {
    std::array<double, 3> whole{};
    const auto chances = [](const FaultPosterior& p) {
        const PolarityChances& c = p.fault->polarity;
        return std::array{c.as_expected, c.reversed, c.none};
    };
    for (const FaultPosterior& p : posterior)
        for (std::size_t i = 0; i < 3; ++i)
            whole[i] += p.probability * chances(p)[i];
    double nats = 0.0;
    for (const FaultPosterior& p : posterior)
        for (std::size_t i = 0; i < 3; ++i)
            if (chances(p)[i] > 0.0)
                nats += p.probability * chances(p)[i] * std::log(chances(p)[i] / whole[i]);
    return nats / std::numbers::ln2;
}

} // namespace

std::vector<NextReading> next_readings(const Rules& rules, const Posterior& posterior,
                                       const std::vector<Reading>& taken) {
    const Forecasting forecasting(posterior);
    std::vector<NextReading> next;
    for (const BenchReading& bench : rules.bench_readings) {
        const Reading question = question_of(bench);
        if (is_taken(question, taken) || bench.quantity == Quantity::dc_voltage) continue;
        const double gain = bench.quantity == Quantity::polarity ? polarity_gain_bits(posterior)
                                                                 : gain_bits(forecasting.of(question, bench));
        if (gain > least_gain_bits)
            next.push_back({describe(question), bench.how, gain, bench.seconds, question});
    }
    std::ranges::stable_sort(next, std::greater{},
                             [](const NextReading& n) { return n.gain_bits / n.seconds; });
    return next;
}

} // namespace coilward
