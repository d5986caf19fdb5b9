#include "reading/json_text.h"

#include "reading/examination_json.h"

#include <algorithm>
#include <set>
#include <vector>

#include <fmt/format.h>

namespace coilward {
namespace {

using nlohmann::json;

/// "line 3, column 17", counted in bytes from 1.
std::string line_and_column(std::string_view text, std::size_t offset) {
    const auto before = text.substr(0, std::min(offset, text.size()));
    const auto line = std::ranges::count(before, '\n') + 1;
    const auto line_start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
    return fmt::format("line {}, column {}", line, before.size() - line_start + 1);
}

std::string character_at(std::string_view text, std::size_t offset) {
    if (offset >= text.size()) return "the end of the text";
    const auto byte = static_cast<unsigned char>(text[offset]);
    if (byte == '\n' || byte == '\r') return "the end of the line";
    if (byte <= 0x20 || byte >= 0x7f) return fmt::format("byte 0x{:02X}", byte);
    return fmt::format("'{}'", text[offset]);
}

/// Follows the parser through the document, so that a member that occurs twice can be named with its place.
class MemberWatch {
public:
    bool operator()(int /*depth*/, json::parse_event_t event, json& parsed) {
        switch (event) {
        case json::parse_event_t::object_start:
            open({});
            break;
        case json::parse_event_t::array_start:
            open({.is_array = true});
            break;
        case json::parse_event_t::key:
            enter(parsed.get<std::string>());
            break;
        case json::parse_event_t::object_end:
        case json::parse_event_t::array_end:
            open_.pop_back();
            [[fallthrough]];
        case json::parse_event_t::value:
            if (!open_.empty()) ++open_.back().elements;
            break;
        }
        return true;
    }

private:
    struct Level {
        bool is_array = false;
        std::size_t elements = 0;
        std::set<std::string> keys{};
        std::string key{};
    };

    /// What is nested without end would exhaust the stack of whoever copies it.
    void open(Level level) {
        constexpr std::size_t deepest = 100;
        if (open_.size() == deepest)
            throw BadDocument(
                fmt::format("{}: found {} objects and arrays inside one another, expected a dozen at most",
                            place(), deepest));
        open_.push_back(std::move(level));
    }

    void enter(const std::string& key) {
        open_.back().key = key;
        if (open_.back().keys.insert(key).second) return;
        throw BadDocument(fmt::format("{}: occurs twice in one object; keep one", place()));
    }

    std::string place() const {
        std::string text;
        for (const auto& level : open_) {
            if (level.is_array)
                text += fmt::format("[{}]", level.elements);
            else
                text += (text.empty() ? "" : ".") + level.key;
        }
        return in_quotes(text);
    }

    std::vector<Level> open_;
};

/// The library names the number but not its place.
std::string number_overflow(std::string_view text, std::string_view library_message) {
    const auto open = library_message.find('\'');
    const auto token = library_message.substr(open + 1, library_message.rfind('\'') - open - 1);
    return fmt::format("{}: found {}, expected a number below 1.8e308",
                       line_and_column(text, text.find(token)),
                       token.size() <= 40 ? std::string(token) : fmt::format("{}…", token.substr(0, 40)));
}

std::string found_text(const json& value) {
    switch (value.type()) {
    case json::value_t::object:
        return value.empty() ? "an empty object" : "an object";
    case json::value_t::array:
        return value.empty() ? "an empty array" : "an array";
    case json::value_t::string:
        return in_quotes(value.get_ref<const std::string&>());
    default:
        return value.dump();
    }
}

/// JSON escapes the control characters below U+0020 only; a terminal obeys the others (U+007F to U+009F) too.
std::string without_controls(std::string_view text) {
    std::string safe;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const auto next = static_cast<unsigned char>(i + 1 < text.size() ? text[i + 1] : 0);
        if (byte == 0x7F)
            safe += "\\u007f";
        else if (byte == 0xC2 && next < 0xA0)
            safe += fmt::format("\\u{:04x}", static_cast<unsigned char>(text[++i]));
        else
            safe += text[i];
    }
    return safe;
}

} // namespace

json parse_json(std::string_view text) {
    try {
        return json::parse(text, MemberWatch{});
    } catch (const json::parse_error& error) {
        const auto offset = error.byte == 0 ? 0 : error.byte - 1;
        throw BadDocument(fmt::format("{}: found {} where JSON does not allow it; check quotes, commas and "
                                      "brackets there and just before",
                                      line_and_column(text, offset), character_at(text, offset)));
    } catch (const json::out_of_range& error) {
        throw BadDocument(number_overflow(text, error.what()));
    }
}

Placed member(const Placed& object, std::string_view key) {
    const auto found = object.value->find(key);
    const bool present = found != object.value->end() && !found->is_null();
    const bool plain = std::ranges::all_of(key, [](char c) { return c > ' ' && c < 0x7f && c != '"'; });
    const auto step = plain && key.size() <= 40 ? std::string(key) : in_quotes(key);
    return {present ? &*found : nullptr, object.place.empty() ? step : object.place + "." + step};
}

Placed element(const Placed& array, std::size_t index) {
    return {&array.value->at(index), fmt::format("{}[{}]", array.place, index)};
}

void complain(const Placed& at, std::string_view expected) {
    const auto colon = at.place.empty() ? "" : ": ";
    if (!at.present()) throw BadDocument(fmt::format("{}{}missing, expected {}", at.place, colon, expected));
    throw BadDocument(
        fmt::format("{}{}found {}, expected {}", at.place, colon, found_text(*at.value), expected));
}

const json& object_at(const Placed& at, std::string_view expected) {
    if (!at.present() || !at.value->is_object()) complain(at, expected);
    return *at.value;
}

const json& array_at(const Placed& at, std::string_view expected) {
    if (!at.present() || !at.value->is_array()) complain(at, expected);
    return *at.value;
}

std::string text_at(const Placed& at, std::string_view expected) {
    if (!at.present() || !at.value->is_string() || at.value->get_ref<const std::string&>().empty())
        complain(at, expected);
    return at.value->get<std::string>();
}

double number_at(const Placed& at, std::string_view expected) {
    if (!at.present() || !at.value->is_number()) complain(at, expected);
    return at.value->get<double>();
}

std::string in_quotes(std::string_view text) {
    constexpr std::size_t longest = 60;
    std::string shown(text);
    if (shown.size() > longest) {
        auto end = longest;
        while (end > 0 && (static_cast<unsigned char>(shown[end]) & 0xC0u) == 0x80u)
            --end; // whole characters
        shown = shown.substr(0, end) + "…";
    }
    return without_controls(json(shown).dump(-1, ' ', false, json::error_handler_t::replace));
}

} // namespace coilward
