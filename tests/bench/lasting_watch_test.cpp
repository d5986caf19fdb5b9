#include "bench/lasting_watch.h"
#include "bench/simulated_port.h"
#include "capture_folder.h"

#include <atomic>
#include <thread>

#include <gtest/gtest.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

SimulatedPeer meter_of(const Driver& driver) {
    const auto coil = [](Quantity, Circuit, double) -> std::optional<double> { return 6112.0; };
    return peer_of(SimulatedMeter(driver, coil));
}

std::uint16_t number_of(const SimulatedPort& port) {
    return static_cast<std::uint16_t>(std::stoi(port.name().substr(port.name().rfind(':') + 1)));
}

TEST(LastingWatch, GoesOnWithinASecondOfTheReturn) {
    const Driver& driver = shipped_driver("dmm-scpi");
    auto port = simulate_on_tcp(meter_of(driver));
    const std::string name = port->name();
    const std::uint16_t number = number_of(*port);
    std::atomic<bool> lost = false;
    std::atomic<std::size_t> readings = 0;
    steady_clock::time_point returned;
    std::vector<milliseconds> waited;
    std::thread puller([&] {
        for (int turn = 0; turn < 3; ++turn) {
            const std::size_t before = readings;
            while (readings < before + 2)
                std::this_thread::yield();
            lost = false;
            port.reset();
            while (!lost)
                std::this_thread::yield();
            returned = steady_clock::now();
            port = simulate_on_tcp(meter_of(driver), number);
        }
    });
    bool awaited = false;
    WatchOrder order;
    order.count = 12;
    const WatchListener listener{
        .reading =
            [&](const StampedReading& stamped) {
                EXPECT_EQ(stamped.reading.value, 6112.0);
                if (std::exchange(awaited, false))
                    waited.push_back(std::chrono::ceil<milliseconds>(steady_clock::now() - returned));
                ++readings;
            },
        .lost = [&] { lost = true; },
        .back = [&] { awaited = true; }};
    const auto open = [&] { return open_port(port_from_text(name), driver.serial); };
    const WatchEnd end = watch_lasting(driver, open, order, listener);
    puller.join();
    EXPECT_EQ(end.why, WatchEnd::Why::counted);
    EXPECT_EQ(end.readings, 12U);
    EXPECT_EQ(end.counts.bytes_that_are_no_reading(), 0U);
    EXPECT_EQ(waited.size(), 3U);
    for (const milliseconds each : waited)
        EXPECT_LT(each, std::chrono::seconds(1));
}

TEST(LastingWatch, GivesUpWhereNothingReturns) {
    const Driver& driver = shipped_driver("dmm-scpi");
    auto port = simulate_on_tcp(meter_of(driver));
    const std::string name = port->name();
    WatchOrder order;
    order.patience = milliseconds(300);
    const WatchEnd end =
        watch_lasting(driver, [&] { return open_port(port_from_text(name), driver.serial); }, order,
                      {.reading = [&](const StampedReading&) { port.reset(); },
                       .lost = [] {},
                       .back = [] { FAIL() << "nothing came back"; }});
    EXPECT_EQ(end.why, WatchEnd::Why::unplugged);
}

} // namespace
} // namespace coilward
