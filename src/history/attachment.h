#pragma once

#include "history/id.h"
#include "units/moment.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace coilward {

/// SHA-256 (FIPS 180-4) of a file's bytes.
struct ContentHash {
    std::array<std::uint8_t, 32> bytes{};

    friend bool operator==(const ContentHash&, const ContentHash&) = default;
    // NOLINTNEXTLINE(modernize-use-nullptr): clang-tidy 14 errs
    friend auto operator<=>(const ContentHash&, const ContentHash&) = default;
};

/// SHA-256 (FIPS 180-4). Throws std::runtime_error where the system's library does not compute it.
ContentHash content_hash(std::string_view bytes);

/// 64 lower-case hexadecimal digits.
std::string text_of(const ContentHash&);

/// Reads that form; nothing where the text is no such hash.
std::optional<ContentHash> content_hash_from_text(std::string_view text);

/// A file, such as a photograph, that belongs to a pickup. Its bytes are kept under their hash.
struct Attachment {
    Id id;
    Id pickup;              ///< to which it belongs
    Moment at{};            ///< when it was attached
    std::string name;       ///< of the file that was attached, without its folder
    std::string media_type; ///< IANA, as "image/jpeg"
    std::string note;       ///< the person's words; may be empty
    ContentHash content;    ///< of its bytes

    friend bool operator==(const Attachment&, const Attachment&) = default;
};

/// By the file name's extension: "image/jpeg", "image/png", "application/pdf", "text/plain"…;
/// "application/octet-stream" for others. The types are those of IANA's registry.
std::string media_type_of(std::string_view file_name);

} // namespace coilward
