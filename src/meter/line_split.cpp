#include "meter/line_split.h"

namespace coilward {

std::string_view trimmed(std::string_view text) {
    const auto is_blank = [](char character) { return character == ' ' || character == '\t'; };
    while (!text.empty() && is_blank(text.front()))
        text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back()))
        text.remove_suffix(1);
    return text;
}

std::optional<std::string_view> FieldsInTurn::next() {
    if (at_end_) return std::nullopt;
    const std::size_t end = separator_.empty() ? std::string_view::npos : rest_.find(separator_);
    const std::string_view field = trimmed(rest_.substr(0, end));
    at_end_ = end == std::string_view::npos;
    if (!at_end_) rest_.remove_prefix(end + separator_.size());
    if (separator_ == " ") rest_ = trimmed(rest_);
    return field;
}

std::vector<std::string_view> split(std::string_view line, std::string_view separator) {
    std::vector<std::string_view> fields;
    FieldsInTurn turn(line, separator);
    for (auto field = turn.next(); field; field = turn.next())
        fields.push_back(*field);
    return fields;
}

} // namespace coilward
