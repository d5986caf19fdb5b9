#include "history/base64.h"

#include <openssl/evp.h>

namespace coilward {
namespace {

const unsigned char* unsigned_bytes(std::string_view text) {
    return reinterpret_cast<const unsigned char*>(text.data());
}

unsigned char* unsigned_bytes(std::string& text) {
    return reinterpret_cast<unsigned char*>(text.data());
}

} // namespace

std::string in_base64(std::string_view bytes) {
    std::string text((bytes.size() + 2) / 3 * 4 + 1, '\0'); // one more for the library's final zero
    EVP_EncodeBlock(unsigned_bytes(text), unsigned_bytes(bytes), static_cast<int>(bytes.size()));
    text.pop_back();
    return text;
}

std::optional<std::string> from_base64(std::string_view text) {
    if (text.size() % 4 != 0) return std::nullopt;
    std::string bytes(text.size() / 4 * 3, '\0');
    if (EVP_DecodeBlock(unsigned_bytes(bytes), unsigned_bytes(text), static_cast<int>(text.size())) < 0)
        return std::nullopt;
    // The library decodes the padding as zero bytes.
    for (std::size_t padding = 0; padding < 2 && text.ends_with('='); ++padding) {
        text.remove_suffix(1);
        bytes.pop_back();
    }
    if (in_base64(bytes).substr(0, text.size()) != text) return std::nullopt;
    return bytes;
}

} // namespace coilward
