#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// A TOML document as plain values that know where they stand, so that only one file needs the parser.
namespace coilward {

/// A place in a file, both from 1; the column counts characters.
struct Place {
    int line = 1;
    int column = 1;
};

/// A value with its place.
struct TomlNode;
struct TomlEntry;

/// A date or a time: rules have none, so its value is not kept.
struct TomlDate {};

/// In the order of the file.
using TomlArray = std::vector<TomlNode>;
using TomlTable = std::vector<TomlEntry>; ///< in the order of the file

/// One value; a table or a list holds further ones.
struct TomlNode {
    Place place; ///< where the value begins
    std::variant<TomlDate, bool, std::int64_t, double, std::string, TomlArray, TomlTable> value;
};

/// A key of a table, and its value.
struct TomlEntry {
    std::string key; ///< without the quotes
    Place place;     ///< of the key
    TomlNode node;
};

/// The entry of that key, or nothing.
const TomlEntry* entry(const TomlTable&, std::string_view key);

/// What was found, for a sentence: "text", "a whole number", "a list", "a table".
std::string_view type_name(const TomlNode&);

/// The value as it would be written, e.g. `[5.7, 6.6]` or `"six"`; long text is cut.
std::string shown(const TomlNode&);

} // namespace coilward
