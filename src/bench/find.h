#pragma once

#include "bench/port.h"

#include <chrono>
#include <functional>
#include <string>
#include <vector>

namespace coilward {

struct FindOrder {
    std::chrono::milliseconds listen{3000}; ///< at most, for each way in which the line can be set
    bool ask = false;                       ///< whether identity questions may be sent
    std::function<bool()> stop = [] { return false; };
};

/// What is behind a port. Where nothing was heard and nothing answered, every list is empty.
struct PortFinding {
    std::vector<const Driver*> heard; ///< drivers that read what the meter sends by itself
    std::size_t bytes = 0;            ///< that arrived while listening and were read by none
    std::string answer;               ///< to an identity question; empty where nobody answered
    std::string instrument;           ///< that the answer names and a driver's documents know; may be empty
    std::vector<const Driver*> asked; ///< that know the answer, or ask that question where none knows it
};

/// True where the driver's frames can be told from any other bytes.
bool can_be_heard(const Driver&);

/// Listens on the port, set as each driver's line is, and reads what arrives with every driver that can be
/// heard. Where that finds none and `ask` is set, the drivers' identity questions are sent, and nothing else
/// is ever sent. The drivers must outlive what is found. Throws TransportError, BadCapture.
PortFinding find_meter(const Port&, const std::vector<Driver>&, const FindOrder&);

} // namespace coilward
