#include "demonstration/simulated_bench.h"

#include "demonstration/simulated_coil.h"
#include "meter/driver_folder.h"

#include <stdexcept>

#include <fmt/format.h>

namespace coilward {
namespace {

/// Simulated meters measure at once; the waits that a real one needs would only be slept through.
std::unique_ptr<Driver> without_waits(const std::vector<Driver>& drivers, std::string_view id) {
    const Driver* shipped = driver_named(drivers, id);
    if (!shipped)
        throw std::out_of_range(fmt::format("there is no driver \"{}\"; choose a folder with it by "
                                            "--drivers",
                                            id));
    auto driver = std::make_unique<Driver>(*shipped);
    driver->poll->pause = std::chrono::milliseconds(0);
    for (MeterSetup& setup : driver->setups)
        setup.settle = std::chrono::milliseconds(0);
    return driver;
}

/// On a terminal device; on the loopback address where the machine gives none (a bare root without /dev/pts).
std::unique_ptr<SimulatedPort> simulate_where_it_can_be(const SimulatedMeter& meter) {
    try {
        return simulate_on_terminal(meter);
    } catch (const TransportError&) {
        return simulate_on_tcp(meter);
    }
}

} // namespace

SimulatedBench::SimulatedBench(const std::vector<Driver>& drivers, const InventedPickup& pickup,
                               std::uint64_t seed)
    : probes_(std::make_shared<std::atomic<CoilPort>>(CoilPort::leads)) {
    const auto meter = [&](const Driver& driver, const MeterError& error, std::uint64_t own_seed) {
        return SimulatedMeter(driver, coil_seen_by(error, pickup.coil, pickup.fault, probes_),
                              {.relative = error.noise, .seed = own_seed});
    };
    auto dmm = without_waits(drivers, "dmm-scpi");
    auto lcr = without_waits(drivers, "lcr-fetch-ab");
    auto dmm_port = simulate_on_tcp(meter(*dmm, simulated_multimeter, seed));
    auto lcr_port = simulate_where_it_can_be(meter(*lcr, simulated_lcr_meter, seed + 1));
    simulated_.push_back({std::move(dmm), std::move(dmm_port)});
    simulated_.push_back({std::move(lcr), std::move(lcr_port)});
}

std::vector<BenchMeter> SimulatedBench::meters() const {
    std::vector<BenchMeter> meters;
    for (const Simulated& each : simulated_)
        meters.push_back(bench_meter(*each.driver, port_from_text(each.port->name()), each.port->name()));
    return meters;
}

} // namespace coilward
