#pragma once

#include <string>
#include <string_view>

namespace coilward {

/// As HTML and SVG write it between elements and in attributes.
std::string escaped(std::string_view text);

} // namespace coilward
