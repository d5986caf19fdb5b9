#pragma once

#include "rewind/spool_check.h"

#include <string>

namespace coilward {

/// Is this wire the gauge that its label says? For a terminal, as a picture (SVG), and as one JSON document
/// on one line (docs/rewinding.md).
std::string spool_page(const SpoolCheck&);
std::string spool_picture(const SpoolCheck&);
std::string spool_to_json(const SpoolCheck&);

} // namespace coilward
