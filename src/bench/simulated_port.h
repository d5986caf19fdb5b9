#pragma once

#include "bench/simulated_meter.h"

#include <atomic>
#include <memory>
#include <string>
#include <thread>

namespace coilward {

/// A simulated meter behind a port of this machine, answering from its own thread until it is destroyed.
class SimulatedPort {
public:
    virtual ~SimulatedPort() = default;

    /// As `--port` takes it: the path of a terminal device, or tcp://127.0.0.1:PORT.
    virtual std::string name() const = 0;

    /// Takes the meter away, as pulling its plug does.
    virtual void unplug() = 0;
};

/// On a terminal device of its own. Throws TransportError where the machine gives none.
std::unique_ptr<SimulatedPort> simulate_on_terminal(SimulatedMeter);

/// On the loopback address, at a port number that the machine chooses, for one connection after another.
std::unique_ptr<SimulatedPort> simulate_on_tcp(SimulatedMeter);

} // namespace coilward
