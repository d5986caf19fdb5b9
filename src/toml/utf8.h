#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace coilward {

/// Where the first byte stands that belongs to no well-formed UTF-8 character (The Unicode Standard, table
/// 3-7), counted from 0; nothing where the text is sound.
std::optional<std::size_t> first_byte_not_utf8(std::string_view text);

/// The text with U+FFFD in place of bytes that are no UTF-8 and of control characters other than the tab, so
/// that a damaged file can be quoted on a terminal.
std::string printable(std::string_view text);

/// The same, and no more than its first 60 bytes, so that a complaint stays a line that a person reads.
std::string shortened(std::string_view text);

} // namespace coilward
