// How impedance and decoding grow with what they are given: 1, 1,000 and 1,000,000.

#include "coil/impedance.h"
#include "coil/ordinary_coil.h"
#include "meter/driver_folder.h"
#include "steady_stream.h"

#include <benchmark/benchmark.h>

namespace coilward {
namespace {

constexpr std::int64_t one = 1;
constexpr std::int64_t thousand = 1'000;
constexpr std::int64_t million = 1'000'000;

void impedance_of_points(benchmark::State& state) {
    const FaultElement fault = Bridge{.share = 0.05, .resistance_ohm = 10.0};
    for (auto _ : state)
        for (std::int64_t point = 0; point < state.range(0); ++point)
            benchmark::DoNotOptimize(impedance(test::ordinary_coil, fault, CoilPort::leads,
                                               20.0 + 0.01 * static_cast<double>(point)));
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
