#include "history/hexadecimal.h"

namespace coilward {
namespace {

int digit_of(char character) {
    if (character >= '0' && character <= '9') return character - '0';
    if (character >= 'a' && character <= 'f') return character - 'a' + 10;
    if (character >= 'A' && character <= 'F') return character - 'A' + 10;
    return -1;
}

} // namespace

std::string in_hexadecimal(std::string_view bytes) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    text.reserve(bytes.size() * 2);
    for (const char byte : bytes) {
        text += digits[static_cast<unsigned char>(byte) / 16U];
        text += digits[static_cast<unsigned char>(byte) % 16U];
    }
    return text;
}

std::optional<std::string> from_hexadecimal(std::string_view digits) {
    if (digits.size() % 2 != 0) return std::nullopt;
    std::string bytes;
    bytes.reserve(digits.size() / 2);
    for (std::size_t place = 0; place < digits.size(); place += 2) {
        const int high = digit_of(digits[place]);
        const int low = digit_of(digits[place + 1]);
        if (high < 0 || low < 0) return std::nullopt;
        bytes += static_cast<char>(high * 16 + low);
    }
    return bytes;
}

} // namespace coilward
