#pragma once

#include <span>
#include <string_view>

namespace coilward {

/// One file of the page, as it is built into the program from src/serve/page and the chart library.
struct PageAsset {
    std::string_view path;       ///< "/bench.js"; the page itself is "/"
    std::string_view media_type; ///< as Content-Type has it
    std::string_view tag;        ///< of its content, for ETag, with its quotes
    std::string_view bytes;      ///< the file, unchanged
};

/// Nothing else is ever served from a path.
std::span<const PageAsset> page_assets();

} // namespace coilward
