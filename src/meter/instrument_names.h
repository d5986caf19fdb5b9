#pragma once

#include "meter/driver.h"

#include <optional>
#include <string>
#include <string_view>

namespace coilward {

/// The driver's instrument whose model number stands in the text as a word of its own, as "E4980A" in
/// "Keysight Technologies,E4980A,MY1234,1.0"; nothing where there is none. A model is a word with a digit and
/// at least three characters, and its maker's name must be in the text too.
std::optional<std::string> instrument_named_in(const Driver&, std::string_view text);

} // namespace coilward
