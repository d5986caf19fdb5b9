#pragma once

#include <string_view>

/// What the pictures of the reports have in common.
namespace coilward::picture {

inline constexpr double width = 760.0; ///< pixels: a page of text

inline constexpr std::string_view ink = "#222";     ///< lines and words
inline constexpr std::string_view quiet = "#777";   ///< what stands behind
inline constexpr std::string_view mark = "#b5532a"; ///< what to look at

} // namespace coilward::picture
