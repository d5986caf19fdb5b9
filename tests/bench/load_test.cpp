// What thirty meters cost that stream at once: processor time of the threads that read them.

#include "bench/port.h"
#include "bench/simulated_port.h"
#include "bench/watch.h"
#include "capture_folder.h"

#include <atomic>
#include <chrono>
#include <iostream>
#include <memory>
#include <thread>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using Seconds = std::chrono::duration<double>;

constexpr std::size_t meters = 30;
constexpr double readings_a_second = 4.0; ///< of each
constexpr double share_of_a_core = 0.1;

/// Processor time of this thread, in the program and in the kernel for it.
Seconds thread_time() {
    rusage used{};
    ::getrusage(RUSAGE_THREAD, &used);
    const auto of = [](const timeval& time) {
        return Seconds(static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec));
    };
    return of(used.ru_utime) + of(used.ru_stime);
}

/// A meter that sends so many readings at once, every so often.
std::unique_ptr<SimulatedPort> streaming(std::size_t at_once, milliseconds every) {
    std::string bytes;
    for (std::size_t i = 0; i < at_once; ++i)
        bytes += "\x02"
                 "41390300007352\r";
    return simulate_on_terminal({.answer = [](std::string_view) { return std::string(); },
                                 .unasked = [bytes] { return bytes; },
                                 .every = every});
}

struct Cost {
    Seconds processor{0.0};
    Seconds wall{0.0};
};

/// Reads so many readings from each of thirty meters.
Cost cost_of_reading(std::size_t count, std::size_t at_once, milliseconds every) {
    const Driver& driver = shipped_driver("stx16");
    std::vector<std::unique_ptr<SimulatedPort>> ports;
    for (std::size_t i = 0; i < meters; ++i)
        ports.push_back(streaming(at_once, every));
    std::vector<Seconds> used(meters);
    std::vector<std::thread> readers;
    const auto began = std::chrono::steady_clock::now();
    for (std::size_t i = 0; i < meters; ++i)
        readers.emplace_back([&, i] {
            MeterSession session(driver, open_port(port_from_text(ports[i]->name()), driver.serial));
            WatchOrder order;
            order.count = count;
            EXPECT_EQ(watch(session, order, [](const StampedReading&) {}).readings, count);
            used[i] = thread_time();
        });
    Cost cost;
    for (std::size_t i = 0; i < meters; ++i) {
        readers[i].join();
        cost.processor += used[i];
    }
    cost.wall = std::chrono::steady_clock::now() - began;
    return cost;
}

TEST(Load, ThirtyMetersStreamingLeaveNineTenthsOfACoreFree) {
    const Cost cost = cost_of_reading(8, 1, milliseconds(250));
    const double share = cost.processor / cost.wall;
    std::cout << fmt::format("{} meters, {} readings a second each: {:.2f} % of one core\n", meters,
                             readings_a_second, 100.0 * share);
    EXPECT_LT(share, share_of_a_core);
}

TEST(Load, ABurstCostsNoMoreForEachReading) {
    constexpr std::size_t count = 2000;
    const Cost cost = cost_of_reading(count, 100, milliseconds(5));
    const double each = cost.processor.count() / static_cast<double>(meters * count);
    std::cout << fmt::format("{} meters, bursts: {:.2f} microseconds of processor time for each reading\n",
                             meters, 1e6 * each);
    EXPECT_LT(each * readings_a_second * static_cast<double>(meters), share_of_a_core);
}

} // namespace
} // namespace coilward
