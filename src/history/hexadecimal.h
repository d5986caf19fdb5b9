#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace coilward {

/// Two lower-case digits a byte.
std::string in_hexadecimal(std::string_view bytes);

/// The bytes, of digits in either case; nothing where the text is no such digits.
std::optional<std::string> from_hexadecimal(std::string_view digits);

} // namespace coilward
