#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace coilward {

/// The text without blanks at its ends.
inline std::string_view trimmed(std::string_view text) {
    const auto is_blank = [](char character) { return character == ' ' || character == '\t'; };
    while (!text.empty() && is_blank(text.front()))
        text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back()))
        text.remove_suffix(1);
    return text;
}

/// Walks over the fields of a line, each trimmed. A line has at least one, be it an empty one. A separator
/// is one character; an empty one leaves the line whole; one blank stands for any number of them.
class FieldsInTurn {
public:
    FieldsInTurn(std::string_view line, std::string_view separator)
        : rest_(line), separator_(separator.empty() ? std::nullopt : std::optional(separator.front())) {}

    std::optional<std::string_view> next();

private:
    std::string_view rest_;
    std::optional<char> separator_;
    bool at_end_ = false;
};

std::vector<std::string_view> split(std::string_view line, std::string_view separator);

} // namespace coilward
