#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace coilward {

/// RFC 4648, section 4, on one line.
std::string in_base64(std::string_view bytes);

/// The bytes; nothing where the text is no such encoding.
std::optional<std::string> from_base64(std::string_view text);

} // namespace coilward
