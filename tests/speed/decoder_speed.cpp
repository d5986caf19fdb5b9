// Every driver's decoder on what its meter sent in its steady capture, over and over, beside finding lines in
// it and copying it. A driver is found by its file.

#include "decoder_speed.h"

#include "meter/driver_folder.h"
#include "plain_work.h"
#include "steady_stream.h"

namespace coilward {
namespace {

void decoding(benchmark::State& state, const Driver& driver, const std::string& stream) {
    std::size_t readings = 0;
    for (auto _ : state)
        readings += readings_in(driver, stream);
    if (readings == 0) state.SkipWithError("no reading in it");
    state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(stream.size()));
    state.SetItemsProcessed(static_cast<std::int64_t>(readings));
}

} // namespace

void add_decoder_rows() {
    static const std::vector<Driver> drivers = load_drivers(COILWARD_SOURCE_DIR "/drivers");
    for (const Driver& driver : drivers) {
        const std::string stream = steady_stream(driver);
        benchmark::RegisterBenchmark(
            ("decoding/" + driver.id).c_str(),
            [&driver, stream](benchmark::State& state) { decoding(state, driver, stream); });
    }
    const std::string stream = steady_stream(drivers.front());
    benchmark::RegisterBenchmark("count_lines/of_a_stream", count_lines, stream);
    benchmark::RegisterBenchmark("copy_bytes/of_a_stream", copy_bytes, stream);
}

} // namespace coilward
