#pragma once

#include "rewind/spool_check.h"

#include <string>

namespace coilward {

/// Is this wire the gauge that its label says? For a terminal.
std::string spool_page(const SpoolCheck&);

/// The same as a picture. SVG.
std::string spool_picture(const SpoolCheck&);

/// The same as one JSON document on one line (docs/rewinding.md).
std::string spool_to_json(const SpoolCheck&);

} // namespace coilward
