// How impedance and decoding grow with what they are given: 1, 1,000 and 1,000,000.

#include "coil/impedance.h"
#include "meter/driver_folder.h"
#include "steady_stream.h"

#include <benchmark/benchmark.h>

namespace coilward {
namespace {

constexpr std::int64_t one = 1;
constexpr std::int64_t thousand = 1'000;
constexpr std::int64_t million = 1'000'000;

void impedance_of_points(benchmark::State& state) {
    const Coil coil{.turns = 7600,
                    .ohm_per_turn_20 = 0.79,
                    .henry_per_turn2 = 4.2e-8,
                    .self_capacitance_f = 80e-12,
                    .frame_capacitance_f = 60e-12,
                    .eddy_share = 0.1,
                    .eddy_time_s = 2e-5};
    const FaultElement fault = Bridge{.share = 0.05, .resistance_ohm = 10.0};
    for (auto _ : state)
        for (std::int64_t point = 0; point < state.range(0); ++point)
            benchmark::DoNotOptimize(
                impedance(coil, fault, CoilPort::leads, 20.0 + 0.01 * static_cast<double>(point)));
    state.SetItemsProcessed(state.iterations() * state.range(0));
}

void decoding_of_lines(benchmark::State& state) {
    const std::vector<Driver> drivers = load_drivers(COILWARD_SOURCE_DIR "/drivers");
    const Driver& driver = *driver_named(drivers, "dmm-scpi");
    const std::string steady = steady_stream(driver);
    const std::size_t line = steady.find('\n') + 1;
    std::string stream;
    for (std::int64_t count = 0; count < state.range(0); ++count)
        stream.append(steady, 0, line);
    for (auto _ : state)
        benchmark::DoNotOptimize(readings_in(driver, stream));
    state.SetItemsProcessed(state.iterations() * state.range(0));
}

BENCHMARK(impedance_of_points)->Arg(one)->Arg(thousand)->Arg(million);
BENCHMARK(decoding_of_lines)->Arg(one)->Arg(thousand)->Arg(million);

} // namespace
} // namespace coilward
