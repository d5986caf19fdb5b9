#pragma once

#include "bench/simulated_port.h"
#include "coil/impedance.h"
#include "demonstration/scenario.h"
#include "guide/bench_meter.h"

#include <atomic>
#include <cstdint>
#include <memory>
#include <vector>

namespace coilward {

/// A multimeter on the loopback address and an LCR meter on a terminal device, both clipped to one invented
/// coil. They see its exact impedance where the probes are, each through its own error of gain and noise.
class SimulatedBench {
public:
    /// The drivers are dmm-scpi and lcr-fetch-ab as they ship. Throws TransportError where the machine gives
    /// no ports, std::out_of_range where a driver is missing.
    SimulatedBench(const std::vector<Driver>&, const InventedPickup&, std::uint64_t seed);

    /// Where both meters are clipped from now on.
    void move_probes(CoilPort place) { *probes_ = place; }

    /// The meters as an examination takes them, over their ports.
    std::vector<BenchMeter> meters() const;

private:
    struct Simulated {
        std::unique_ptr<Driver> driver; ///< where it lies must not change
        std::unique_ptr<SimulatedPort> port;
    };

    std::shared_ptr<std::atomic<CoilPort>> probes_;
    std::vector<Simulated> simulated_;
};

} // namespace coilward
