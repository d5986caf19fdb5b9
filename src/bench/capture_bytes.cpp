#include "bench/capture_bytes.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {
namespace {

bool is_printable(char character) {
    return character >= ' ' && character <= '~';
}

bool is_plain(char character) {
    return is_printable(character) || character == '\r' || character == '\n';
}

std::optional<int> hex_digit(char character) {
    if (character >= '0' && character <= '9') return character - '0';
    if (character >= 'A' && character <= 'F') return character - 'A' + 10;
    if (character >= 'a' && character <= 'f') return character - 'a' + 10;
    return std::nullopt;
}

/// The byte of the first two hexadecimal digits.
std::optional<char> hex_byte(std::string_view text) {
    if (text.size() < 2) return std::nullopt;
    const auto high = hex_digit(text[0]);
    const auto low = hex_digit(text[1]);
    if (!high || !low) return std::nullopt;
    return static_cast<char>(*high * 16 + *low);
}

std::string escaped(char character) {
    switch (character) {
    case '\r':
        return "\\r";
    case '\n':
        return "\\n";
    case '\t':
        return "\\t";
    case '"':
        return "\\\"";
    case '\\':
        return "\\\\";
    default:
        break;
    }
    if (is_printable(character)) return {character};
    return fmt::format("\\x{:02X}", static_cast<unsigned char>(character));
}

/// Takes the escape behind a backslash off the front of the text.
std::optional<char> take_escape(std::string_view& text) {
    if (text.empty()) return std::nullopt;
    const char letter = text.front();
    text.remove_prefix(1);
    switch (letter) {
    case 'r':
        return '\r';
    case 'n':
        return '\n';
    case 't':
        return '\t';
    case '"':
        return '"';
    case '\\':
        return '\\';
    case 'x':
        break;
    default:
        return std::nullopt;
    }
    const auto byte = hex_byte(text);
    if (byte) text.remove_prefix(2);
    return byte;
}

/// Behind the opening quotation mark.
std::optional<std::string> from_quoted(std::string_view text) {
    std::string bytes;
    while (!text.empty()) {
        const char character = text.front();
        text.remove_prefix(1);
        if (character == '"') return text.empty() && !bytes.empty() ? std::optional(bytes) : std::nullopt;
        if (character != '\\') {
            bytes += character;
            continue;
        }
        const auto escape = take_escape(text);
        if (!escape) return std::nullopt;
        bytes += *escape;
    }
    return std::nullopt; // the closing quotation mark is missing
}

std::optional<std::string> from_hex(std::string_view text) {
    std::string bytes;
    for (;;) {
        const auto byte = hex_byte(text);
        if (!byte) return std::nullopt;
        bytes += *byte;
        text.remove_prefix(2);
        if (text.empty()) return bytes;
        if (text.front() != ' ') return std::nullopt;
        text.remove_prefix(1);
    }
}

} // namespace

std::string shown_bytes(std::string_view bytes) {
    const auto odd = std::ranges::count_if(bytes, [](char character) { return !is_plain(character); });
    std::string text;
    if (odd * 4 > static_cast<std::ptrdiff_t>(bytes.size())) {
        for (const char byte : bytes)
            text += fmt::format("{}{:02X}", text.empty() ? "" : " ", static_cast<unsigned char>(byte));
        return text;
    }
    for (const char byte : bytes)
        text += escaped(byte);
    return '"' + text + '"';
}

std::optional<std::string> bytes_from_text(std::string_view text) {
    if (text.starts_with('"')) return from_quoted(text.substr(1));
    return from_hex(text);
}

} // namespace coilward
