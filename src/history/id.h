#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace coilward {

/// A name that no other bench gives to anything else: a version 4 UUID (RFC 9562), 122 random bits. All bytes
/// 0, as it is made, is the nil id, which names nothing.
struct Id {
    std::array<std::uint8_t, 16> bytes{};

    friend bool operator==(const Id&, const Id&) = default;

    /// By the bytes: an order that every bench agrees on.
    friend bool operator<(const Id& a, const Id& b) { return a.bytes < b.bytes; }
};

/// A fresh id from the system's random source. Throws std::system_error where that fails.
Id random_id();

/// The id that always belongs to this text: a version 8 UUID (RFC 9562, 5.8) from its SHA-256. Throws as
/// content_hash() does.
Id id_for(std::string_view text);

/// The lower-case form "0f8fad5b-d9cb-469f-a165-70867728950e".
std::string text_of(const Id&);

/// Reads that form in either case; nothing where the text is no such id.
std::optional<Id> id_from_text(std::string_view text);

} // namespace coilward
