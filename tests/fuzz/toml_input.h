#pragma once

#include "require.h"
#include "rules/heading.h"
#include "toml/toml_source.h"

#include <optional>
#include <utility>
#include <variant>
#include <vector>

namespace coilward {

/// The input as a TOML file that has the name which its id asks for, so that it can be accepted.
inline std::optional<TomlSource> toml_of_input(std::string text, std::vector<Complaint>& complaints) {
    auto source = toml_from_text(std::move(text), "fuzzed.toml", complaints);
    if (!source) return std::nullopt;
    if (const TomlEntry* id = entry(source->root, "id"))
        if (const auto* name = std::get_if<std::string>(&id->node.value)) source->file = *name + ".toml";
    return source;
}

/// Every complaint can be printed, and nothing is refused without one.
inline void require_complaints(const std::vector<Complaint>& complaints, bool accepted) {
    require(accepted == complaints.empty(), "what is refused has a complaint, and nothing else has one");
    for (const Complaint& complaint : complaints) {
        require(!complaint.expected.empty(), "a complaint has a sentence", complaint.file);
        if (complaint.line > 0) require(complaint.column > 0, "a complaint with a line has a column");
        require_one_line(complaint.expected);
        require_one_line(complaint.key + ' ');
        require_one_line(complaint.excerpt + ' ');
    }
}

/// Reads the input with `read`, which has the form of the readers of rules, and judges what it says.
template <typename Read>
auto read_input_file(const std::uint8_t* data, std::size_t size, Read read) {
    std::vector<Complaint> complaints;
    const auto source = toml_of_input(text_of_input(data, size), complaints);
    decltype(read(*source, complaints)) item;
    if (source) item = read(*source, complaints);
    require_complaints(complaints, item.has_value());
    return item;
}

} // namespace coilward
