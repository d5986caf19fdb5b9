#pragma once

#include <string_view>
#include <vector>

namespace coilward {

/// The text without blanks at its ends.
inline std::string_view trimmed(std::string_view text) {
    // Nearly no character of a text is so low in the alphabet: one comparison for most.
    const auto is_blank = [](char character) {
        return static_cast<unsigned char>(character) <= ' ' && (character == ' ' || character == '\t');
    };
    while (!text.empty() && is_blank(text.front()))
        text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back()))
        text.remove_suffix(1);
    return text;
}

/// Puts the fields of a trimmed line behind one another, each trimmed. A line has at least one, be it an
/// empty one. A separator is one character; an empty one leaves the line whole; one blank stands for any
/// number of them.
inline void split_into(std::vector<std::string_view>& fields, std::string_view line,
                       std::string_view separator) {
    if (separator.empty()) {
        fields.push_back(line);
        return;
    }
    const char mark = separator.front();
    for (;;) {
        std::size_t end = 0; // fields are short: faster than a search by the library
        while (end < line.size() && line[end] != mark)
            ++end;
        fields.push_back(trimmed(line.substr(0, end)));
        if (end == line.size()) return;
        line.remove_prefix(end + 1);
        if (mark == ' ') line = trimmed(line);
    }
}

/// Views of the parts, in order.
std::vector<std::string_view> split(std::string_view line, std::string_view separator);

} // namespace coilward
