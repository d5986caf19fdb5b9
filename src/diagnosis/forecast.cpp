#include "diagnosis/forecast.h"

#include "metrology/normal.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace coilward {
namespace {

/// A forecast on a scale that is linear near 0 and logarithmic far from it, so that ohms, gigaohms and
/// negative inductances find room on one axis.
struct Place {
    std::size_t fault = 0;
    double weight = 0.0;
    double mean = 0.0;
    double deviation = 1.0;
};

constexpr double anything_deviation = 3.0; // on that scale: a factor of twenty

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

/// The density of all forecasts at a place, and of those of one fault, each with its weight.
struct Density {
    double of_all = 0.0;
    double of_fault = 0.0;
};

Density density_at(double place, const std::vector<Place>& forecasts, std::size_t fault) {
    constexpr double out_of_sight = 8.0; // deviations: 1e-14 of the middle's density
    Density density;
    for (const Place& f : forecasts) {
        const double z = (place - f.mean) / f.deviation;
        if (std::abs(z) > out_of_sight) continue;
        const double height = f.weight * normal_density(z) / f.deviation;
        density.of_all += height;
        if (f.fault == fault) density.of_fault += height;
    }
    return density;
}

double weight_of_fault(const std::vector<Place>& forecasts, std::size_t fault) {
    double weight = 0.0;
    for (const Place& f : forecasts)
        if (f.fault == fault) weight += f.weight;
    return weight;
}

double information_nats(const std::vector<Place>& forecasts) {
    double whole = 0.0;
    for (const Place& f : forecasts)
        whole += f.weight;
    double nats = 0.0;
    for (const Place& f : forecasts) {
        const double share_of_fault = weight_of_fault(forecasts, f.fault) / whole;
        for (const Node& node : nodes) {
            const Density density = density_at(f.mean + node.z * f.deviation, forecasts, f.fault);
            nats += f.weight / whole * node.weight *
                    std::log(density.of_fault / (share_of_fault * density.of_all));
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

double gain_bits(const std::vector<Forecast>& forecasts, const std::optional<AnythingGoes>& anything) {
    if (forecasts.empty()) return 0.0;
    const double scale = scale_of(forecasts);
    std::vector<Place> places;
    for (const Forecast& f : forecasts)
        places.push_back(
            {f.fault, f.weight, std::asinh(f.value / scale), f.deviation / std::hypot(f.value, scale)});
    if (anything)
        places.push_back({anything->fault, anything->weight, places.front().mean, anything_deviation});
    return std::max(0.0, information_nats(places) / std::numbers::ln2);
}

} // namespace coilward
