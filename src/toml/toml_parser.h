#pragma once

#include "toml/toml_node.h"

#include <string>
#include <string_view>
#include <variant>

namespace coilward {

/// Where the text is no TOML, and why.
struct TomlSyntaxError {
    Place place;
    std::string description; ///< the parser's words
};

/// Parses a TOML document. Throws nothing of its own: what is not TOML is a value.
std::variant<TomlTable, TomlSyntaxError> parse_toml(std::string_view text);

} // namespace coilward
