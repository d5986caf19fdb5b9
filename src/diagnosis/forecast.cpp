#include "diagnosis/forecast.h"

#include "metrology/normal.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include <Eigen/Core>

namespace coilward {
namespace {

constexpr double anything_deviation = 3.0; // on the places' scale: a factor of twenty

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

/// Forecasts on a scale that is linear near 0 and logarithmic far from it, so that ohms, gigaohms and
/// negative inductances find room on one axis. Those of one fault stand together.
struct Places {
    std::vector<std::size_t> faults;
    Eigen::ArrayXd weights;
    Eigen::ArrayXd means;
    Eigen::ArrayXd deviations;

    Eigen::Index size() const { return weights.size(); }

    void set(Eigen::Index i, std::size_t fault, double weight, double mean, double deviation) {
        faults[static_cast<std::size_t>(i)] = fault;
        weights[i] = weight;
        means[i] = mean;
        deviations[i] = deviation;
    }
};

Places room_for(std::size_t count) {
    const auto size = static_cast<Eigen::Index>(count);
    return {std::vector<std::size_t>(count), Eigen::ArrayXd(size), Eigen::ArrayXd(size),
            Eigen::ArrayXd(size)};
}

/// The end of the places from `first` on that are of its fault.
Eigen::Index end_of_fault(const Places& places, Eigen::Index first) {
    const auto from = places.faults.begin() + first;
    const auto end = std::find_if(from, places.faults.end(), [&](std::size_t f) { return f != *from; });
    return end - places.faults.begin();
}

double information_nats(const Places& places) {
    const double whole = places.weights.sum();
    const Eigen::ArrayXd per_deviation = places.deviations.inverse();
    // Exponentials of half the digits take a third of the time, and an expectation needs no more.
    const Eigen::ArrayXf peaks = (normal_density(0.0) * places.weights * per_deviation).cast<float>();
    Eigen::ArrayXf exponents(places.size());
    Eigen::ArrayXf heights(places.size());
    double nats = 0.0;
    for (Eigen::Index first = 0, end = 0; first < places.size(); first = end) {
        end = end_of_fault(places, first);
        const double share_of_fault = places.weights.segment(first, end - first).sum() / whole;
        for (Eigen::Index i = first; i < end; ++i)
            for (const Node& node : nodes) {
                const double place = places.means[i] + node.z * places.deviations[i];
                exponents = (-0.5 * ((place - places.means) * per_deviation).square()).cast<float>();
                heights = peaks * exponents.exp();
                const auto of_fault = static_cast<double>(heights.segment(first, end - first).sum());
                const auto of_all = static_cast<double>(heights.sum());
                nats +=
                    places.weights[i] / whole * node.weight * std::log(of_fault / (share_of_fault * of_all));
            }
    }
    return nats;
}

double scale_of(const std::vector<Forecast>& forecasts) {
    double least = std::numeric_limits<double>::max();
    for (const Forecast& f : forecasts)
        if (f.value != 0.0) least = std::min(least, std::abs(f.value));
    return 0.1 * least;
}

} // namespace

Forecast as_read(const Forecast& of_the_coil, const BenchReading& bench) {
    Forecast forecast = of_the_coil;
    const double meter = std::hypot(bench.relative_uncertainty * forecast.value, bench.absolute_uncertainty);
    forecast.deviation = std::hypot(forecast.deviation, meter);
    if (bench.range_limit && std::abs(forecast.value) > *bench.range_limit) {
        forecast.value = std::copysign(*bench.range_limit, forecast.value);
        forecast.deviation = 0.05 * *bench.range_limit;
    }
    return forecast;
}

double gain_bits(std::vector<Forecast> forecasts, const std::optional<AnythingGoes>& anything) {
    if (forecasts.empty()) return 0.0;
    std::ranges::stable_sort(forecasts, {}, &Forecast::fault);
    const double scale = scale_of(forecasts);
    Places places = room_for(forecasts.size() + (anything ? 1 : 0));
    Eigen::Index i = 0;
    for (const Forecast& f : forecasts)
        places.set(i++, f.fault, f.weight, std::asinh(f.value / scale),
                   f.deviation / std::hypot(f.value, scale));
    if (anything) places.set(i, anything->fault, anything->weight, places.means[0], anything_deviation);
    return std::max(0.0, information_nats(places) / std::numbers::ln2);
}

} // namespace coilward
