#include "cli/wrapped_text.h"

#include <algorithm>
#include <sstream>

namespace coilward {

std::size_t columns_of(std::string_view utf8) {
    return static_cast<std::size_t>(std::ranges::count_if(
        utf8, [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }));
}

std::vector<std::string> wrapped(std::string_view text, std::size_t columns) {
    std::vector<std::string> lines;
    std::istringstream words{std::string(text)};
    for (std::string word; words >> word;) {
        const bool fits = !lines.empty() && columns_of(lines.back()) + 1 + columns_of(word) <= columns;
        if (fits)
            lines.back() += " " + word;
        else
            lines.push_back(word);
    }
    return lines;
}

} // namespace coilward
