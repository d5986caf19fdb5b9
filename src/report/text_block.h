#pragma once

#include <cstddef>
#include <string>
#include <string_view>

/// Text for a terminal, in columns.
namespace coilward {

/// Columns that running text takes at most.
inline constexpr std::size_t page_width = 98;

/// Columns that a UTF-8 text takes, one a character.
std::size_t columns(std::string_view text);

/// The text with blanks behind it up to so many columns.
std::string padded(std::string text, std::size_t width);

/// Words broken over lines of page_width that begin with `first`, then with as many blanks; each ends with a
/// newline.
std::string wrapped(std::string_view text, const std::string& first);

} // namespace coilward
