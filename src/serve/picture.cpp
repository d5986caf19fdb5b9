#include "serve/picture.h"

#include <algorithm>
#include <array>

namespace coilward {
namespace {

constexpr PictureKind jpeg{"image/jpeg", ".jpg"};
constexpr PictureKind png{"image/png", ".png"};
constexpr PictureKind webp{"image/webp", ".webp"};

} // namespace

std::optional<PictureKind> picture_kind(std::string_view bytes) {
    using namespace std::string_view_literals;
    if (bytes.starts_with("\xFF\xD8\xFF"sv)) return jpeg;
    if (bytes.starts_with("\x89PNG\r\n\x1A\n"sv)) return png;
    if (bytes.starts_with("RIFF"sv) && bytes.size() > 12 && bytes.substr(8, 4) == "WEBP"sv) return webp;
    return std::nullopt;
}

bool is_picture_type(std::string_view media_type) {
    constexpr std::array kinds{jpeg, png, webp};
    return std::ranges::any_of(kinds, [&](const PictureKind& kind) { return kind.media_type == media_type; });
}

} // namespace coilward
