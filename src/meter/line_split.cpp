#include "meter/line_split.h"

namespace coilward {

std::optional<std::string_view> FieldsInTurn::next() {
    if (at_end_) return std::nullopt;
    std::size_t end = rest_.size();
    if (separator_) // fields are short: faster than a search by the library
        for (end = 0; end < rest_.size() && rest_[end] != *separator_;)
            ++end;
    const std::string_view field = trimmed(rest_.substr(0, end));
    at_end_ = end == rest_.size();
    if (!at_end_) rest_.remove_prefix(end + 1);
    if (separator_ == ' ') rest_ = trimmed(rest_);
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
