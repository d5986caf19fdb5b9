#include "report/text_block.h"

namespace coilward {

std::size_t columns(std::string_view text) {
    std::size_t count = 0;
    for (const char c : text)
        if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++count;
    return count;
}

std::string padded(std::string text, std::size_t width) {
    const std::size_t taken = columns(text);
    if (taken < width) text.append(width - taken, ' ');
    return text;
}

std::string wrapped(std::string_view text, const std::string& first) {
    const std::string rest(columns(first), ' ');
    std::string lines;
    std::string line = first;
    bool empty = true;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string_view word = text.substr(at, end - at);
        if (!empty && columns(line) + 1 + columns(word) > page_width) {
            lines += line + '\n';
            line = rest;
            empty = true;
        }
        if (!empty) line += ' ';
        line += word;
        empty = false;
        at = end + 1;
    }
    return lines + line + '\n';
}

} // namespace coilward
