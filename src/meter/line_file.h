#pragma once

#include "meter/line_protocol.h"
#include "toml/table_reader.h"

namespace coilward {

/// Reads the [line] table of a driver file (docs/drivers.md). What is wrong becomes a complaint.
LineProtocol read_line_protocol(TableReader&);

} // namespace coilward
