#include "history/id.h"

#include "history/attachment.h"

#include <algorithm>
#include <cerrno>
#include <system_error>

#include <fmt/format.h>
#include <sys/random.h>

namespace coilward {
namespace {

constexpr std::size_t text_length = 36;

bool is_dash_place(std::size_t place) {
    return place == 8 || place == 13 || place == 18 || place == 23;
}

/// The version, and the variant of RFC 9562.
void set_kind(Id& id, unsigned version) {
    id.bytes[6] = static_cast<std::uint8_t>((id.bytes[6] & 0x0fU) | (version << 4U));
    id.bytes[8] = static_cast<std::uint8_t>((id.bytes[8] & 0x3fU) | 0x80U);
}

int hex_digit(char digit) {
    if (digit >= '0' && digit <= '9') return digit - '0';
    if (digit >= 'a' && digit <= 'f') return digit - 'a' + 10;
    if (digit >= 'A' && digit <= 'F') return digit - 'A' + 10;
    return -1;
}

} // namespace

Id random_id() {
    Id id;
    // getrandom(2) gives 16 bytes whole or fails.
    if (getrandom(id.bytes.data(), id.bytes.size(), 0) < 0)
        throw std::system_error(errno, std::generic_category(),
                                "the system gives no random numbers for an id");
    set_kind(id, 4);
    return id;
}

Id id_for(std::string_view text) {
    const auto hash = content_hash(text).bytes;
    Id id;
    std::copy_n(hash.begin(), id.bytes.size(), id.bytes.begin());
    set_kind(id, 8);
    return id;
}

std::string text_of(const Id& id) {
    std::string text;
    text.reserve(text_length);
    for (const auto byte : id.bytes) {
        if (is_dash_place(text.size())) text += '-';
        fmt::format_to(std::back_inserter(text), "{:02x}", byte);
    }
    return text;
}

std::optional<Id> id_from_text(std::string_view text) {
    if (text.size() != text_length) return std::nullopt;
    Id id;
    std::size_t nibble = 0;
    for (std::size_t place = 0; place < text.size(); ++place) {
        if (is_dash_place(place)) {
            if (text[place] != '-') return std::nullopt;
            continue;
        }
        const int digit = hex_digit(text[place]);
        if (digit < 0) return std::nullopt;
        auto& byte = id.bytes[nibble / 2];
        byte = static_cast<std::uint8_t>(byte * 16 + digit);
        ++nibble;
    }
    return id;
}

} // namespace coilward
