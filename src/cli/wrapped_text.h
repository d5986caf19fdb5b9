#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// The characters of a text in UTF-8; each takes one column in what this program prints.
std::size_t columns_of(std::string_view utf8);

/// The text broken between its words into lines of at most so many columns; a longer word gets a line of its
/// own.
std::vector<std::string> wrapped(std::string_view text, std::size_t columns);

} // namespace coilward
