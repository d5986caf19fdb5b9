#pragma once

#include <optional>
#include <stdexcept>
#include <string_view>

namespace coilward {

/// Bytes that are none of the kinds of picture that browsers show. One line.
struct NotAPicture : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// A kind of picture that is kept.
struct PictureKind {
    std::string_view media_type;
    std::string_view extension; ///< with its dot
};

/// By the first bytes alone, never by a name: JPEG (ITU-T T.81, B.1.1.3: SOI and a marker), PNG (W3C
/// PNG, 5.2), WebP (RFC 9649, 2.4). Nothing for anything else, pictures that can carry scripts (SVG) among
/// them.
std::optional<PictureKind> picture_kind(std::string_view bytes);

/// True for the media types under which a request may carry a picture.
bool is_picture_type(std::string_view media_type);

/// The longest picture that is kept. A photograph that the page has made smaller takes a tenth of it.
inline constexpr std::size_t longest_picture = std::size_t{8} * 1024 * 1024;

} // namespace coilward
