#include "toml/toml_parser.h"

#include <algorithm>

#include <toml++/toml.h>

namespace coilward {
namespace {

Place place_of(const toml::source_region& region) {
    // The parser gives line 0 to what it made up itself, as the tables in a dotted header.
    return {.line = std::max(1, static_cast<int>(region.begin.line)),
            .column = std::max(1, static_cast<int>(region.begin.column))};
}

TomlTable table_of(const toml::table&);
TomlArray array_of(const toml::array&);

TomlNode node_of(const toml::node& node) {
    TomlNode result{.place = place_of(node.source()), .value = TomlDate{}};
    if (const auto* flag = node.as_boolean()) result.value = flag->get();
    if (const auto* whole = node.as_integer()) result.value = whole->get();
    if (const auto* number = node.as_floating_point()) result.value = number->get();
    if (const auto* text = node.as_string()) result.value = text->get();
    if (const auto* array = node.as_array()) result.value = array_of(*array);
    if (const auto* table = node.as_table()) result.value = table_of(*table);
    return result;
}

TomlArray array_of(const toml::array& array) {
    TomlArray result;
    for (const toml::node& node : array)
        result.push_back(node_of(node));
    return result;
}

/// The parser sorts keys by name; complaints are to come in the order of the file.
TomlTable table_of(const toml::table& table) {
    TomlTable result;
    for (const auto& [key, node] : table)
        result.push_back(
            {.key = std::string(key.str()), .place = place_of(key.source()), .node = node_of(node)});
    std::ranges::stable_sort(
        result, {}, [](const TomlEntry& entry) { return std::pair(entry.place.line, entry.place.column); });
    return result;
}

} // namespace

std::variant<TomlTable, TomlSyntaxError> parse_toml(std::string_view text) {
    try {
        return table_of(toml::parse(text));
    } catch (const toml::parse_error& error) {
        return TomlSyntaxError{place_of(error.source()), std::string(error.description())};
    }
}

} // namespace coilward
