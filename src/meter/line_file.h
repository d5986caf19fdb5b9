#pragma once

#include "meter/line_protocol.h"
#include "toml/table_reader.h"

namespace coilward {

/// Reads the [line] table of a driver file.
LineProtocol read_line_protocol(TableReader&);

} // namespace coilward
