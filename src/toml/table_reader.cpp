#include "toml/table_reader.h"

#include "toml/edit_distance.h"
#include "toml/number_check.h"
#include "toml/utf8.h"

#include <algorithm>
#include <array>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace coilward {
namespace {

std::optional<double> as_number(const TomlNode& node) {
    if (const auto* whole = std::get_if<std::int64_t>(&node.value)) return static_cast<double>(*whole);
    if (const auto* number = std::get_if<double>(&node.value)) return *number;
    return std::nullopt;
}

std::string range_expected(const Measure& measure) {
    return "[low, high], in " + described(measure);
}

} // namespace

TableReader::TableReader(const TomlSource& source, std::vector<Complaint>& complaints)
    : source_(&source), complaints_(&complaints), table_(&source.root) {}

TableReader::TableReader(const TableReader& parent, const TomlTable& table, Place place, std::string path)
    : source_(parent.source_), complaints_(parent.complaints_), table_(&table), place_(place),
      path_(std::move(path)) {}

std::optional<std::string> TableReader::text_in(const TomlNode& found, Name name) {
    const auto* text = std::get_if<std::string>(&found.value);
    if (!text) {
        complain_of_type(found, name, "text");
        return std::nullopt;
    }
    if (text->find_first_not_of(" \t\r\n") == std::string::npos) {
        complain_at(found.place, ComplaintKind::empty_text, name, "found empty text, expected words");
        return std::nullopt;
    }
    return *text;
}

std::optional<std::string> TableReader::text(std::string_view key, Need need) {
    const TomlNode* found = node(key, need, [] { return "text"; });
    if (!found) return std::nullopt;
    return text_in(*found, {key});
}

std::optional<bool> TableReader::flag(std::string_view key, Need need) {
    const TomlNode* found = node(key, need, [] { return "true or false"; });
    if (!found) return std::nullopt;
    if (const auto* flag = std::get_if<bool>(&found->value)) return *flag;
    complain_of_type(*found, {key}, "true or false");
    return std::nullopt;
}

std::optional<double> TableReader::number(std::string_view key, Need need, const Measure& measure) {
    const TomlNode* found = node(key, need, [&] { return described(measure); });
    if (!found) return std::nullopt;
    return number_in(*found, {key}, measure);
}

std::optional<double> TableReader::number_in(const TomlNode& node, Name name, const Measure& measure) {
    const auto value = as_number(node);
    if (!value) {
        complain_of_type(node, name, described(measure));
        return std::nullopt;
    }
    if (const auto wrong = objection(std::array{*value}, measure)) {
        complain_at(node.place, wrong->kind, name,
                    fmt::format("found {}, expected {}", shown(node), wrong->expected));
        return std::nullopt;
    }
    return value;
}

std::optional<int> TableReader::whole_number(std::string_view key, Need need, int low, int high) {
    const auto expected = [&] { return fmt::format("a whole number from {} to {}", low, high); };
    const TomlNode* found = node(key, need, expected);
    if (!found) return std::nullopt;
    const auto* whole = std::get_if<std::int64_t>(&found->value);
    if (!whole) {
        complain_of_type(*found, {key}, expected());
        return std::nullopt;
    }
    if (*whole < low || *whole > high) {
        complain_at(found->place, ComplaintKind::out_of_bounds, {key},
                    fmt::format("found {}, expected {}", *whole, expected()));
        return std::nullopt;
    }
    return static_cast<int>(*whole);
}

std::optional<Range> TableReader::range_in(const TomlNode& found, Name name, const Measure& measure) {
    const auto* array = std::get_if<TomlArray>(&found.value);
    if (!array) {
        complain_of_type(found, name, range_expected(measure));
        return std::nullopt;
    }
    const auto refuse = [&](ComplaintKind kind, const std::string& expected) {
        complain_at(found.place, kind, name, fmt::format("found {}, expected {}", shown(found), expected));
        return std::nullopt;
    };
    if (array->size() != 2) return refuse(ComplaintKind::not_low_and_high, range_expected(measure));
    const auto low = as_number(array->front());
    const auto high = as_number(array->back());
    if (!low || !high) return refuse(ComplaintKind::wrong_type, range_expected(measure));
    if (const auto wrong = objection(std::array{*low, *high}, measure))
        return refuse(wrong->kind, wrong->expected);
    if (*low >= *high) return refuse(ComplaintKind::low_not_below_high, "[low, high] with low below high");
    return Range{*low, *high};
}

std::optional<Range> TableReader::range(std::string_view key, Need need, const Measure& measure) {
    const TomlNode* found = node(key, need, [&] { return range_expected(measure); });
    if (!found) return std::nullopt;
    return range_in(*found, {key}, measure);
}

std::vector<Range> TableReader::ranges(std::string_view key, Need need, const Measure& measure) {
    const TomlArray* found = list(key, need, [&] { return "a list of " + range_expected(measure); });
    std::vector<Range> result;
    if (!found) return result;
    for (std::size_t i = 0; i < found->size(); ++i)
        if (const auto range = range_in((*found)[i], {key, i}, measure)) result.push_back(*range);
    return result;
}

std::vector<double> TableReader::numbers(std::string_view key, Need need, const Measure& measure) {
    const TomlArray* found = list(key, need, [&] { return "a list, each " + described(measure); });
    std::vector<double> result;
    if (!found) return result;
    for (std::size_t i = 0; i < found->size(); ++i)
        if (const auto number = number_in((*found)[i], {key, i}, measure)) result.push_back(*number);
    return result;
}

std::vector<std::string> TableReader::texts(std::string_view key, Need need) {
    const TomlArray* found = list(key, need, [] { return "a list of texts"; });
    std::vector<std::string> result;
    if (!found) return result;
    for (std::size_t i = 0; i < found->size(); ++i)
        if (const auto text = text_in((*found)[i], {key, i})) result.push_back(*text);
    return result;
}

std::optional<TableReader> TableReader::table(std::string_view key, Need need) {
    const auto expected = [&] { return fmt::format("a table, [{}]", dotted({key})); };
    const TomlNode* found = node(key, need, expected);
    if (!found) return std::nullopt;
    if (const auto* table = std::get_if<TomlTable>(&found->value))
        return TableReader(*this, *table, found->place, dotted({key}));
    complain_of_type(*found, {key}, expected());
    return std::nullopt;
}

std::vector<TableReader> TableReader::tables(std::string_view key, Need need) {
    const TomlArray* found =
        list(key, need, [&] { return fmt::format("a list of tables, [[{}]]", dotted({key})); });
    std::vector<TableReader> result;
    if (!found) return result;
    result.reserve(found->size());
    for (std::size_t i = 0; i < found->size(); ++i) {
        const TomlNode& each = (*found)[i];
        if (const auto* table = std::get_if<TomlTable>(&each.value))
            result.push_back(TableReader(*this, *table, each.place, dotted({key, i})));
        else
            complain_of_type(each, {key, i}, "a table");
    }
    return result;
}

void TableReader::complain(ComplaintKind kind, std::string_view key, std::string_view sentence) {
    const TomlEntry* found = entry(*table_, key);
    complain_at(found ? found->node.place : place_, kind, {key}, sentence);
}

void TableReader::complain(ComplaintKind kind, std::string_view sentence) {
    complaints_->push_back(complaint_at(*source_, place_, kind, path_, sentence));
}

void TableReader::refuse_unknown_keys() {
    const auto is_known = [&](const TomlEntry& each) {
        return std::ranges::find(known_keys_, each.key) != known_keys_.end();
    };
    if (std::ranges::all_of(*table_, is_known)) return;
    const std::set<std::string_view> sorted(known_keys_.begin(), known_keys_.end());
    const std::vector<std::string_view> known(sorted.begin(), sorted.end());
    for (const TomlEntry& each : *table_) {
        if (is_known(each)) continue;
        const auto meant = nearest(each.key, known);
        const std::string guess = meant ? fmt::format("; did you mean \"{}\"?", *meant) : "";
        complain_at(each.place, ComplaintKind::unknown_key, {shortened(each.key)},
                    fmt::format("unknown key, expected one of {}{}", fmt::join(known, ", "), guess));
    }
}

template <typename Words>
const TomlNode* TableReader::node(std::string_view key, Need need, const Words& expected) {
    known_keys_.emplace_back(key);
    if (const TomlEntry* found = entry(*table_, key)) return &found->node;
    if (need == Need::required)
        complain(ComplaintKind::missing_key, key, fmt::format("missing, expected {}", expected()));
    return nullptr;
}

template <typename Words>
const TomlArray* TableReader::list(std::string_view key, Need need, const Words& expected) {
    const TomlNode* found = node(key, need, expected);
    if (!found) return nullptr;
    const auto* array = std::get_if<TomlArray>(&found->value);
    if (!array) {
        complain_of_type(*found, {key}, expected());
        return nullptr;
    }
    if (need == Need::required && array->empty())
        complain_at(found->place, ComplaintKind::empty_list, {key},
                    fmt::format("found an empty list, expected {}", expected()));
    return array;
}

std::optional<std::size_t> TableReader::word_index(std::string_view key, Need need,
                                                   std::span<const std::string_view> words) {
    const auto expected = [&] { return fmt::format("\"{}\"", fmt::join(words, "\" or \"")); };
    const TomlNode* found = node(key, need, expected);
    if (!found) return std::nullopt;
    const auto* text = std::get_if<std::string>(&found->value);
    if (!text) {
        complain_of_type(*found, {key}, expected());
        return std::nullopt;
    }
    const auto word = std::ranges::find(words, *text);
    if (word == words.end()) {
        complain_at(found->place, ComplaintKind::unknown_word, {key},
                    fmt::format("found {}, expected {}", shown(*found), expected()));
        return std::nullopt;
    }
    return static_cast<std::size_t>(word - words.begin());
}

std::string TableReader::dotted(Name name) const {
    std::string text = path_.empty() ? std::string(name.key) : fmt::format("{}.{}", path_, name.key);
    if (name.element) text += fmt::format("[{}]", *name.element);
    return text;
}

void TableReader::complain_at(Place place, ComplaintKind kind, Name name, std::string_view sentence) {
    complaints_->push_back(complaint_at(*source_, place, kind, dotted(name), sentence));
}

void TableReader::complain_of_type(const TomlNode& found, Name name, std::string_view expected) {
    complain_at(found.place, ComplaintKind::wrong_type, name,
                fmt::format("found {}, expected {}", type_name(found), expected));
}

} // namespace coilward
