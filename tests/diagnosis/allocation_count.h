#pragma once

namespace coilward::testing {

/// How often this program has asked for memory so far.
long allocation_count();

} // namespace coilward::testing
