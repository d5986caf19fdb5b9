#pragma once

#include "bench/clock.h"
#include "bench/transport.h"
#include "meter/driver.h"
#include "meter/measurement.h"

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <variant>

namespace coilward {

/// A serial device, or any other terminal device.
struct DevicePort {
    std::filesystem::path path; ///< "/dev/ttyUSB0"
};

/// A network address: a meter's own, or a serial server's.
struct TcpPort {
    std::string host;    ///< a name or an address, without brackets
    std::string service; ///< port number
};

/// A capture in place of a meter.
struct ReplayPort {
    std::filesystem::path file; ///< the capture
};

/// Where a meter can be.
using Port = std::variant<DevicePort, TcpPort, ReplayPort>;

/// Reads "/dev/ttyUSB0", "tcp://HOST:PORT" ("tcp://[::1]:5025") or "replay:FILE". Throws
/// std::invalid_argument with one line for anything else.
Port port_from_text(const std::string& text);

/// A link to a meter, with the clock that goes with it: the machine's, or the capture's own for a replay.
struct Link {
    std::unique_ptr<Transport> transport;               ///< never nullptr
    std::shared_ptr<Clock> clock;                       ///< never nullptr
    std::optional<MeasurementRequest> recorded_request; ///< of a replayed capture: how its meter was set
};

/// Opens the port: a serial device through libserialport with the settings, any other terminal device as it
/// is, a network address, or a capture. Throws TransportError, or BadCapture for a capture.
Link open_port(const Port&, const SerialSettings&);

} // namespace coilward
