#pragma once

#include "rewind/plan_words.h"

namespace CLI {
class App;
}

namespace coilward {

/// `--core`, `--flange`, `--height` and what else tells of the bobbin.
void add_bobbin_options(CLI::App&, BobbinWords&);

/// `--awg`, `--metric` and what else tells of the wire.
void add_wire_options(CLI::App&, WireWords&);

} // namespace coilward
