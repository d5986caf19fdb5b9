#include "diagnosis/resonance.h"

#include <cmath>
#include <cstdint>

#include <boost/math/tools/minima.hpp>

namespace coilward {
namespace {

constexpr double lowest_hz = 200.0;
constexpr double highest_hz = 200e3;
constexpr double stride = 1.12;
constexpr double log_step = 1e-3;

double log_magnitude(const CircuitUnderTest& circuit, double frequency_hz) {
    return 0.5 * std::log(std::norm(impedance(circuit.coil, circuit.fault, CoilPort::leads, frequency_hz)));
}

/// Walks uphill until the next stride goes down.
std::optional<double> summit_within_stride(const CircuitUnderTest& circuit, double from_hz) {
    double here = log_magnitude(circuit, from_hz);
    const double step = log_magnitude(circuit, from_hz * stride) > here ? stride : 1.0 / stride;
    for (double f = from_hz; f > lowest_hz && f < highest_hz; f *= step) {
        const double next = log_magnitude(circuit, f * step);
        if (next <= here) return f;
        here = next;
    }
    return std::nullopt;
}

/// The greatest magnitude between two frequencies, by Brent's method: near a peak as flat as this one two
/// magnitudes differ in their digits only beyond some millionths of the frequency.
double refine(const CircuitUnderTest& circuit, double low_hz, double high_hz) {
    constexpr int bits = 22;
    std::uintmax_t most_steps = 40;
    const auto depth = [&](double log_hz) { return -log_magnitude(circuit, std::exp(log_hz)); };
    return std::exp(
        boost::math::tools::brent_find_minima(depth, std::log(low_hz), std::log(high_hz), bits, most_steps)
            .first);
}

} // namespace

std::optional<Resonance> resonance_near(const CircuitUnderTest& circuit, double near_hz) {
    const auto summit = summit_within_stride(circuit, near_hz);
    if (!summit) return std::nullopt;
    Resonance result{.frequency_hz = refine(circuit, *summit / stride, *summit * stride)};

    // At the peak d ln|Z| / d ln f = 0. Differentiating that by a parameter p:
    // d ln f / dp = −(∂² ln|Z| / ∂ ln f ∂p) / (∂² ln|Z| / ∂ ln f²), by central differences in ln f.
    const double f = result.frequency_hz;
    const auto below =
        impedance_with_gradient(circuit.coil, circuit.fault, CoilPort::leads, f * std::exp(-log_step));
    const auto above =
        impedance_with_gradient(circuit.coil, circuit.fault, CoilPort::leads, f * std::exp(log_step));
    const double middle = log_magnitude(circuit, f);
    const double curvature =
        (std::log(std::abs(above.impedance_ohm)) + std::log(std::abs(below.impedance_ohm)) - 2.0 * middle) /
        (log_step * log_step);
    if (curvature >= 0.0) return std::nullopt;
    for (std::size_t p = 0; p < result.log_slope.size(); ++p) {
        const double mixed = ((above.derivative[p] / above.impedance_ohm).real() -
                              (below.derivative[p] / below.impedance_ohm).real()) /
                             (2.0 * log_step);
        result.log_slope[p] = -mixed / curvature;
    }
    return result;
}

} // namespace coilward
