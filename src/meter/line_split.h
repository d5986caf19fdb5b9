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
        : rest_(line), separator_(separator.empty() ? none : separator.front()) {}

    /// The next one; nothing behind the last.
    std::optional<std::string_view> next() {
        if (at_end_) return std::nullopt;
        std::size_t end = rest_.size();
        if (separator_ != none) // fields are short: faster than a search by the library
            for (end = 0; end < rest_.size() && rest_[end] != separator_;)
                ++end;
        const std::string_view field = trimmed(rest_.substr(0, end));
        at_end_ = end == rest_.size();
        if (!at_end_) rest_.remove_prefix(end + 1);
        if (separator_ == ' ') rest_ = trimmed(rest_);
        return field;
    }

private:
    static constexpr char none = '\0';

    std::string_view rest_;
    char separator_;
    bool at_end_ = false;
};

std::vector<std::string_view> split(std::string_view line, std::string_view separator);

} // namespace coilward
