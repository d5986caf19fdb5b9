#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace coilward {

/// The text without blanks at its ends.
std::string_view trimmed(std::string_view text);

/// Walks over the fields of a line, each trimmed. A line has at least one, be it an empty one. An empty
/// separator leaves the line whole; one blank stands for any number of them.
class FieldsInTurn {
public:
    FieldsInTurn(std::string_view line, std::string_view separator) : rest_(line), separator_(separator) {}

    std::optional<std::string_view> next();

private:
    std::string_view rest_;
    std::string_view separator_;
    bool at_end_ = false;
};

std::vector<std::string_view> split(std::string_view line, std::string_view separator);

} // namespace coilward
