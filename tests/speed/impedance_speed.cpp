// The impedance of one coil at one frequency, with each primitive fault element, alone and with its
// derivatives.

#include "coil/impedance.h"
#include "coil/ordinary_coil.h"

#include <benchmark/benchmark.h>

namespace coilward {
namespace {

constexpr double frequency_hz = 1000.0;

void impedance_of(benchmark::State& state, const FaultElement& element) {
    for (auto _ : state)
        benchmark::DoNotOptimize(impedance(test::ordinary_coil, element, CoilPort::leads, frequency_hz));
}

void gradient_of(benchmark::State& state, const FaultElement& element) {
    for (auto _ : state)
        benchmark::DoNotOptimize(
            impedance_with_gradient(test::ordinary_coil, element, CoilPort::leads, frequency_hz));
}

const Bridge bridge{.share = 0.05, .resistance_ohm = 10.0};
const SeriesElement series_element{.position = 0.3, .resistance_ohm = 2e6, .capacitance_f = 2e-12};
const Leak leak{.position = 0.3, .resistance_ohm = 1e5};
const Load load{.resistance_ohm = 250e3,
                .capacitance_f = 500e-12,
                .tone_resistance_ohm = 250e3,
                .tone_capacitance_f = 47e-9};

BENCHMARK_CAPTURE(impedance_of, no_fault, NoFault{});
BENCHMARK_CAPTURE(impedance_of, bridge, bridge);
BENCHMARK_CAPTURE(impedance_of, series_element, series_element);
BENCHMARK_CAPTURE(impedance_of, leak, leak);
BENCHMARK_CAPTURE(impedance_of, load, load);
BENCHMARK_CAPTURE(gradient_of, no_fault, NoFault{});
BENCHMARK_CAPTURE(gradient_of, bridge, bridge);
BENCHMARK_CAPTURE(gradient_of, series_element, series_element);
BENCHMARK_CAPTURE(gradient_of, leak, leak);
BENCHMARK_CAPTURE(gradient_of, load, load);

} // namespace
} // namespace coilward
