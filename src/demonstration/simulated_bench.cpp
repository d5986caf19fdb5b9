#include "demonstration/simulated_bench.h"

#include "diagnosis/read_form.h"
#include "meter/driver_folder.h"

#include <cmath>
#include <complex>
#include <numbers>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {
namespace {

/// What one meter adds to the truth, all well inside the specifications of such meters.
struct MeterError {
    std::complex<double> gain{1.0, 0.0}; ///< of size and, as its imaginary part, of angle
    double noise = 0.0;                  ///< standard deviation, relative
    double highest_ohm = 0.0;
};

constexpr MeterError multimeter{.gain = {1.0002, 0.0}, .noise = 2e-5, .highest_ohm = 1.2e8};
constexpr MeterError lcr_meter{.gain = {0.9997, 2e-4}, .noise = 5e-5, .highest_ohm = 2e8};

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

SimulatedCoil seen_by(const MeterError& error, const InventedPickup& pickup,
                      std::shared_ptr<const std::atomic<CoilPort>> probes) {
    return [error, coil = pickup.coil, fault = pickup.fault, probes = std::move(probes)](
               Quantity quantity, Circuit circuit, double frequency_hz) -> std::optional<double> {
        const auto z = error.gain * impedance(coil, fault, *probes, frequency_hz);
        if (std::abs(z) > error.highest_ohm) return std::nullopt;
        const auto form = read_form(quantity, circuit, z, 2.0 * std::numbers::pi * frequency_hz);
        return form ? std::optional(form->value) : std::nullopt;
    };
}

} // namespace

SimulatedBench::SimulatedBench(const std::vector<Driver>& drivers, const InventedPickup& pickup,
                               std::uint64_t seed)
    : probes_(std::make_shared<std::atomic<CoilPort>>(CoilPort::leads)) {
    const auto meter = [&](const Driver& driver, const MeterError& error, std::uint64_t own_seed) {
        return SimulatedMeter(driver, seen_by(error, pickup, probes_),
                              {.relative = error.noise, .seed = own_seed});
    };
    auto dmm = without_waits(drivers, "dmm-scpi");
    auto lcr = without_waits(drivers, "lcr-fetch-ab");
    auto dmm_port = simulate_on_tcp(meter(*dmm, multimeter, seed));
    auto lcr_port = simulate_on_terminal(meter(*lcr, lcr_meter, seed + 1));
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
