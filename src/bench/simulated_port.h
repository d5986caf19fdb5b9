#pragma once

#include "bench/simulated_meter.h"

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

namespace coilward {

/// What speaks behind a simulated port.
struct SimulatedPeer {
    std::function<std::string(std::string_view)> answer; ///< to bytes that arrive
    std::function<std::string()> unasked;                ///< what it sends by itself; may be empty
    std::chrono::milliseconds every{500};                ///< how often it does
};

/// The meter as a peer: a polled one answers, a streaming one sends a reading every half second.
SimulatedPeer peer_of(SimulatedMeter);

/// The same peer over a bad line: of the bytes that it sends that share (0 to 1) is flipped, dropped, or gets
/// a wrong one in front, the same way for the same seed.
SimulatedPeer over_a_bad_line(const SimulatedPeer&, double share, std::uint64_t seed);

/// A peer behind a port of this machine, speaking from a thread of its own until it is destroyed.
class SimulatedPort {
public:
    virtual ~SimulatedPort() = default;

    /// As `--port` takes it: the path of a terminal device, or tcp://127.0.0.1:PORT.
    virtual std::string name() const = 0;

    /// Takes the meter away, as pulling its plug does.
    virtual void unplug() = 0;
};

/// On a terminal device of its own. Throws TransportError where the machine gives none.
std::unique_ptr<SimulatedPort> simulate_on_terminal(SimulatedPeer);

/// The same of peer_of() the meter.
std::unique_ptr<SimulatedPort> simulate_on_terminal(SimulatedMeter);

/// On the loopback address, for one connection after another; 0 lets the machine choose the port number.
/// Throws TransportError where it is taken.
std::unique_ptr<SimulatedPort> simulate_on_tcp(SimulatedPeer, std::uint16_t number = 0);

/// The same of peer_of() the meter, on a port number that the machine chooses.
std::unique_ptr<SimulatedPort> simulate_on_tcp(SimulatedMeter);

} // namespace coilward
