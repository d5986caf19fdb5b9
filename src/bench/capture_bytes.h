#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace coilward {

/// Bytes as a capture shows them: as quoted text ("+1.5E+00\r\n") where most are printable, else in
/// hexadecimal
/// ("02 34 0D").
std::string shown_bytes(std::string_view bytes);

/// The bytes back from either form; nothing where the text is neither. An empty sequence has no form.
std::optional<std::string> bytes_from_text(std::string_view text);

} // namespace coilward
