// The impedance of one coil at one frequency, with each primitive fault element, alone and with its
// derivatives.

#include "coil/impedance.h"

#include <benchmark/benchmark.h>

namespace coilward {
namespace {

constexpr double frequency_hz = 1000.0;

const Coil coil{.turns = 7600,
                .ohm_per_turn_20 = 0.79,
                .henry_per_turn2 = 4.2e-8,
                .self_capacitance_f = 80e-12,
                .frame_capacitance_f = 60e-12,
                .eddy_share = 0.1,
                .eddy_time_s = 2e-5};

void impedance_of(benchmark::State& state, const FaultElement& element) {
    for (auto _ : state)
        benchmark::DoNotOptimize(impedance(coil, element, CoilPort::leads, frequency_hz));
}

void gradient_of(benchmark::State& state, const FaultElement& element) {
    for (auto _ : state)
        benchmark::DoNotOptimize(impedance_with_gradient(coil, element, CoilPort::leads, frequency_hz));
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
