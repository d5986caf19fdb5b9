#include "toml/utf8.h"

#include <algorithm>
#include <array>

namespace coilward {
namespace {

/// One row of The Unicode Standard, table 3-7: what may follow a first byte. Bytes after the second are 80 to
/// BF.
struct WellFormed {
    unsigned char first_low;
    unsigned char first_high;
    unsigned char second_low;
    unsigned char second_high;
    std::size_t length;
};

constexpr std::array<WellFormed, 9> table_3_7{{
    {0x00, 0x7F, 0x00, 0x00, 1},
    {0xC2, 0xDF, 0x80, 0xBF, 2},
    {0xE0, 0xE0, 0xA0, 0xBF, 3},
    {0xE1, 0xEC, 0x80, 0xBF, 3},
    {0xED, 0xED, 0x80, 0x9F, 3},
    {0xEE, 0xEF, 0x80, 0xBF, 3},
    {0xF0, 0xF0, 0x90, 0xBF, 4},
    {0xF1, 0xF3, 0x80, 0xBF, 4},
    {0xF4, 0xF4, 0x80, 0x8F, 4},
}};

/// Length of the character at the start of the text; 0 where there is none.
std::size_t character_length(std::string_view text) {
    const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(text[at]); };
    const auto row = std::ranges::find_if(table_3_7, [&](const WellFormed& form) {
        return byte(0) >= form.first_low && byte(0) <= form.first_high;
    });
    if (row == table_3_7.end() || text.size() < row->length) return 0;
    if (row->length > 1 && (byte(1) < row->second_low || byte(1) > row->second_high)) return 0;
    for (std::size_t at = 2; at < row->length; ++at)
        if (byte(at) < 0x80 || byte(at) > 0xBF) return 0;
    return row->length;
}

} // namespace

std::optional<std::size_t> first_byte_not_utf8(std::string_view text) {
    const auto is_ascii = [](char c) { return static_cast<unsigned char>(c) < 0x80; };
    std::size_t at = 0;
    while (true) {
        const auto other =
            std::find_if_not(text.begin() + static_cast<std::ptrdiff_t>(at), text.end(), is_ascii);
        if (other == text.end()) return std::nullopt;
        at = static_cast<std::size_t>(other - text.begin());
        const std::size_t length = character_length(text.substr(at));
        if (length == 0) return at;
        at += length;
    }
}

std::string printable(std::string_view text) {
    std::string safe;
    while (!text.empty()) {
        const std::size_t length = character_length(text);
        const auto byte = static_cast<unsigned char>(text.front());
        const bool is_c1 = length == 2 && byte == 0xC2 && static_cast<unsigned char>(text[1]) < 0xA0;
        const bool is_control = (byte < 0x20 && byte != '\t') || byte == 0x7F || is_c1;
        if (length == 0 || is_control)
            safe += "\uFFFD";
        else
            safe += text.substr(0, length);
        text.remove_prefix(std::max<std::size_t>(length, 1));
    }
    return safe;
}

std::string shortened(std::string_view text) {
    constexpr std::size_t longest = 60;
    if (text.size() <= longest) return printable(text);
    std::size_t end = longest;
    while (end > longest - 4 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U)
        --end; // whole characters
    return printable(text.substr(0, end)) + "…";
}

} // namespace coilward
