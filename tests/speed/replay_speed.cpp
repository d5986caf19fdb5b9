// A ten-minute capture of a streaming meter: its text read, and replayed through a session at full speed,
// beside finding the lines of its text.

#include "bench/meter_session.h"
#include "bench/replay_transport.h"
#include "meter/driver_folder.h"
#include "plain_work.h"

#include <memory>

namespace coilward {
namespace {

using std::chrono::milliseconds;

const std::string& ten_minutes() {
    static const std::string text = [] {
        const Capture steady = read_capture(COILWARD_SOURCE_DIR "/captures/stx16/steady.capture");
        Capture capture = steady;
        capture.events.clear();
        for (milliseconds at{0}; at < std::chrono::minutes(10); at += milliseconds(100)) {
            CaptureEvent event = steady.events[capture.events.size() % steady.events.size()];
            event.at = at;
            capture.events.push_back(event);
        }
        return to_text(capture);
    }();
    return text;
}

void reading_a_capture(benchmark::State& state) {
    for (auto _ : state)
        benchmark::DoNotOptimize(capture_from_text(ten_minutes(), "ten-minutes.capture"));
    state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(ten_minutes().size()));
}

void replaying_ten_minutes(benchmark::State& state) {
    const std::vector<Driver> drivers = load_drivers(COILWARD_SOURCE_DIR "/drivers");
    const Driver& driver = *driver_named(drivers, "stx16");
    std::int64_t readings = 0;
    for (auto _ : state) {
        Capture capture = capture_from_text(ten_minutes(), "ten-minutes.capture");
        auto clock = std::make_shared<ReplayClock>(capture.began);
        MeterSession session(driver,
                             {.transport = std::make_unique<ReplayTransport>(std::move(capture), clock),
                              .clock = clock,
                              .recorded_request = {}});
        session.prepare({.quantity = Quantity::dc_resistance});
        while (std::holds_alternative<StampedReading>(session.next(std::chrono::seconds(5))))
            ++readings;
    }
    state.SetItemsProcessed(readings);
    if (readings < 5990 * static_cast<std::int64_t>(state.iterations()))
        state.SkipWithError("readings were lost");
}

void finding_lines_of_a_capture(benchmark::State& state) {
    count_lines(state, ten_minutes());
}

BENCHMARK(reading_a_capture)->Unit(benchmark::kMillisecond);
BENCHMARK(replaying_ten_minutes)->Unit(benchmark::kMillisecond);
BENCHMARK(finding_lines_of_a_capture)->Unit(benchmark::kMillisecond);

} // namespace
} // namespace coilward
