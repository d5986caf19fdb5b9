#include "toml/toml_node.h"

#include "toml/utf8.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace coilward {
namespace {

std::string shown_array(const TomlArray& array) {
    constexpr std::size_t most = 4;
    std::string text = "[";
    for (std::size_t i = 0; i < array.size() && i < most; ++i)
        text += (i > 0 ? ", " : "") + shown(array[i]);
    return text + (array.size() > most ? ", …]" : "]");
}

} // namespace

const TomlEntry* entry(const TomlTable& table, std::string_view key) {
    const auto found = std::ranges::find(table, key, &TomlEntry::key);
    return found == table.end() ? nullptr : &*found;
}

std::string_view type_name(const TomlNode& node) {
    constexpr std::array<std::string_view, 7> names{
        "a date or time", "true or false", "a whole number", "a number", "text", "a list", "a table"};
    static_assert(names.size() == std::variant_size_v<decltype(node.value)>);
    return names[node.value.index()];
}

std::string shown(const TomlNode& node) {
    if (const auto* flag = std::get_if<bool>(&node.value)) return *flag ? "true" : "false";
    if (const auto* whole = std::get_if<std::int64_t>(&node.value)) return fmt::format("{}", *whole);
    if (const auto* number = std::get_if<double>(&node.value)) return fmt::format("{}", *number);
    if (const auto* text = std::get_if<std::string>(&node.value))
        return fmt::format("\"{}\"", shortened(*text));
    if (const auto* array = std::get_if<TomlArray>(&node.value)) return shown_array(*array);
    return std::string(type_name(node));
}

} // namespace coilward
