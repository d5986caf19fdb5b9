#include "history/attachment.h"

#include "history/hexadecimal.h"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

#include <openssl/evp.h>

namespace coilward {

ContentHash content_hash(std::string_view bytes) {
    ContentHash hash;
    unsigned length = 0;
    if (EVP_Digest(bytes.data(), bytes.size(), hash.bytes.data(), &length, EVP_sha256(), nullptr) != 1 ||
        length != hash.bytes.size())
        throw std::runtime_error("the system's cryptographic library computes no SHA-256");
    return hash;
}

std::string text_of(const ContentHash& hash) {
    return in_hexadecimal(std::string(hash.bytes.begin(), hash.bytes.end()));
}

std::optional<ContentHash> content_hash_from_text(std::string_view text) {
    const auto bytes = from_hexadecimal(text);
    ContentHash hash;
    if (!bytes || bytes->size() != hash.bytes.size()) return std::nullopt;
    std::ranges::copy(*bytes, hash.bytes.begin());
    return hash;
}

std::string media_type_of(std::string_view file_name) {
    // From the registry of media types, https://www.iana.org/assignments/media-types.
    constexpr std::array<std::pair<std::string_view, std::string_view>, 10> types{{
        {"jpg", "image/jpeg"},
        {"jpeg", "image/jpeg"},
        {"png", "image/png"},
        {"heic", "image/heic"},
        {"webp", "image/webp"},
        {"svg", "image/svg+xml"},
        {"pdf", "application/pdf"},
        {"txt", "text/plain"},
        {"csv", "text/csv"},
        {"json", "application/json"},
    }};
    const auto dot = file_name.rfind('.');
    std::string extension(dot == std::string_view::npos ? "" : file_name.substr(dot + 1));
    for (char& letter : extension)
        if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
    const auto* known = std::ranges::find(types, std::string_view(extension),
                                          &std::pair<std::string_view, std::string_view>::first);
    return std::string(known == types.end() ? "application/octet-stream" : known->second);
}

} // namespace coilward
