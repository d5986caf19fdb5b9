// Every driver's decoder on what its meter sent in its steady capture, over and over, beside finding lines in
// it and copying it. A driver is found by its file.

#include "decoder_speed.h"

#include "bench/capture.h"
#include "meter/decoder.h"
#include "meter/driver_folder.h"
#include "meter/measurement.h"
#include "plain_work.h"

#include <stdexcept>

namespace coilward {
namespace {

constexpr std::size_t stream_bytes = 1U << 20U;
constexpr std::size_t piece_bytes = 4096; ///< as much as one read of a port gives

/// A megabyte of what the meter sent.
std::string stream_of(const Driver& driver) {
    const Capture capture = read_capture(COILWARD_SOURCE_DIR "/captures/" + driver.id + "/steady.capture");
    std::string once;
    for (const CaptureEvent& event : capture.events)
        if (event.kind == CaptureEvent::Kind::received) once += event.bytes;
    if (once.empty()) throw std::runtime_error("nothing was sent in the steady capture of " + driver.id);
    std::string stream;
    while (stream.size() < stream_bytes)
        stream += once;
    return stream;
}

void decoding(benchmark::State& state, const Driver& driver, const std::string& stream) {
    const MeterSetup& setup = driver.setups.front();
    const MeterSetting setting = setting_for(setup, frequency_for(setup, {.quantity = setup.gives.front()}));
    std::size_t readings = 0;
    for (auto _ : state) {
        Decoder decoder(driver, setting);
        decoder.begin_frame();
        for (std::string_view rest = stream; !rest.empty();
             rest.remove_prefix(std::min(piece_bytes, rest.size())))
            decoder.feed(rest.substr(0, piece_bytes), [](Frame& frame) { benchmark::DoNotOptimize(frame); });
        readings += decoder.counts().pieces(Verdict::reading);
    }
    if (readings == 0) state.SkipWithError("no reading in it");
    state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(stream.size()));
    state.SetItemsProcessed(static_cast<std::int64_t>(readings));
}

} // namespace

void add_decoder_rows() {
    static const std::vector<Driver> drivers = load_drivers(COILWARD_SOURCE_DIR "/drivers");
    for (const Driver& driver : drivers) {
        const std::string stream = stream_of(driver);
        benchmark::RegisterBenchmark(
            ("decoding/" + driver.id).c_str(),
            [&driver, stream](benchmark::State& state) { decoding(state, driver, stream); });
    }
    const std::string stream = stream_of(drivers.front());
    benchmark::RegisterBenchmark("count_lines/of_a_stream", count_lines, stream);
    benchmark::RegisterBenchmark("copy_bytes/of_a_stream", copy_bytes, stream);
}

} // namespace coilward
