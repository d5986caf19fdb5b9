#pragma once

#include "rewind/plan_words.h"

namespace CLI {
class App;
}

namespace coilward {

void add_bobbin_options(CLI::App&, BobbinWords&);
void add_wire_options(CLI::App&, WireWords&);

} // namespace coilward
