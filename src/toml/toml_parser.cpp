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

TomlTable table_of(toml::table&);
TomlArray array_of(toml::array&);

/// Takes long text out of the parser's own tree, which nobody reads again.
TomlNode node_of(toml::node& node) {
    TomlNode result{.place = place_of(node.source()), .value = TomlDate{}};
    switch (node.type()) {
    case toml::node_type::boolean:
        result.value = node.as_boolean()->get();
        break;
    case toml::node_type::integer:
        result.value = node.as_integer()->get();
        break;
    case toml::node_type::floating_point:
        result.value = node.as_floating_point()->get();
        break;
    case toml::node_type::string:
        result.value = std::move(node.as_string()->get());
        break;
    case toml::node_type::array:
        result.value = array_of(*node.as_array());
        break;
    case toml::node_type::table:
        result.value = table_of(*node.as_table());
        break;
    default: // a date or a time
        break;
    }
    return result;
}

TomlArray array_of(toml::array& array) {
    TomlArray result;
    result.reserve(array.size());
    for (toml::node& node : array)
        result.push_back(node_of(node));
    return result;
}

/// The parser sorts keys by name; complaints are to come in the order of the file.
TomlTable table_of(toml::table& table) {
    TomlTable result;
    result.reserve(table.size());
    for (auto&& [key, node] : table)
        result.push_back(
            {.key = std::string(key.str()), .place = place_of(key.source()), .node = node_of(node)});
    std::ranges::stable_sort(
        result, {}, [](const TomlEntry& entry) { return std::pair(entry.place.line, entry.place.column); });
    return result;
}

} // namespace

std::variant<TomlTable, TomlSyntaxError> parse_toml(std::string_view text) {
    try {
        toml::table root = toml::parse(text);
        return table_of(root);
    } catch (const toml::parse_error& error) {
        return TomlSyntaxError{place_of(error.source()), std::string(error.description())};
    }
}

} // namespace coilward
