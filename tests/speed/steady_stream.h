#pragma once

#include "meter/driver.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace coilward {

/// A megabyte of what the driver's meter sent in its steady capture, over and over.
std::string steady_stream(const Driver&);

/// Decodes it in pieces of as much as one read of a port gives; how many readings were in it.
std::size_t readings_in(const Driver&, std::string_view stream);

} // namespace coilward
