#pragma once

#include "bench/transport.h"
#include "meter/driver.h"

#include <memory>
#include <string>

namespace coilward {

/// True for a device that libserialport knows as a serial port; pseudo-terminals are not among them.
bool is_serial_port(const std::string& path);

/// Opens a serial port with the settings. Throws TransportError.
std::unique_ptr<Transport> open_serial(const std::string& path, const SerialSettings&);

/// What a port that gave no bytes is: `waiting` is what sp_input_waiting then answers. No read call of
/// libserialport reports a pulled adapter; this question fails on one.
LinkOutcome outcome_of_quiet_port(int waiting);

} // namespace coilward
