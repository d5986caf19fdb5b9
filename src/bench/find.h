#pragma once

#include "bench/port.h"

#include <chrono>
#include <functional>
#include <string>
#include <vector>

namespace coilward {

/// How a meter is looked for.
struct FindOrder {
    std::chrono::milliseconds listen{3000}; ///< at most, for each way in which the line can be set
    bool ask = false;                       ///< whether identity questions may be sent
    /// True ends the search.
    std::function<bool()> stop = [] { return false; };
    std::function<void(const std::string&)> progress = [](const std::string&) {
    }; ///< on a serial line: what is done now
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

/// How a line is set, for the person: "9600 baud, 8 data bits, no parity, 1 stop bit".
std::string in_words(const SerialSettings&);

/// Opens the port with these line settings.
using LineOpener = std::function<Link(const SerialSettings&)>;

/// The same on a port that `open` opens. On a serial line each setting that some streaming driver has is
/// listened to, the commonest first. A meter that streams is heard at any speed, if only as garbage: where
/// not a byte came, other speeds with the same control lines are not tried, so that a silent port takes a few
/// seconds.
PortFinding find_meter(const LineOpener& open, bool is_serial_line, const std::vector<Driver>&,
                       const FindOrder&);

} // namespace coilward
