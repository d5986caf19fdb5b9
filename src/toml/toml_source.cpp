#include "toml/toml_source.h"

#include "toml/toml_parser.h"
#include "toml/utf8.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <fstream>
#include <system_error>

#include <fmt/format.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t largest_file_bytes = 1U << 20U;

/// The parser descends once for each dot of a dotted key, and keys do not cross lines.
constexpr std::size_t longest_line_bytes = 4000;

std::string_view line_of(std::string_view text, int line) {
    for (; line > 1 && !text.empty(); --line)
        text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
    text = text.substr(0, text.find('\n'));
    if (text.ends_with('\r')) text.remove_suffix(1);
    return text;
}

Place place_of_byte(std::string_view text, std::size_t byte) {
    const std::string_view before = text.substr(0, byte);
    const std::size_t line_start = before.rfind('\n') + 1; // 0 where there is no line end: npos + 1
    const auto is_first_byte = [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; };
    return {.line = static_cast<int>(std::ranges::count(before, '\n')) + 1,
            .column = static_cast<int>(std::ranges::count_if(before.substr(line_start), is_first_byte)) + 1};
}

/// The start of the first line that is too long, if any.
std::optional<Place> long_line(std::string_view text) {
    int line = 1;
    while (!text.empty()) {
        const std::size_t length = std::min(text.find('\n'), text.size());
        if (length > longest_line_bytes) return Place{.line = line, .column = 1};
        text.remove_prefix(std::min(length + 1, text.size()));
        ++line;
    }
    return std::nullopt;
}

std::optional<Complaint> why_not_to_open(const fs::path& file) {
    std::error_code error;
    const fs::file_status status = fs::status(file, error);
    if (!fs::exists(status))
        return complaint_about(
            file, ComplaintKind::unreadable,
            fmt::format("cannot be read: {}", error ? error.message() : "it does not exist"));
    if (!fs::is_regular_file(status))
        return complaint_about(
            file, ComplaintKind::not_a_file,
            fmt::format("found {}, expected a file of text",
                        fs::is_directory(status) ? "a folder" : "something that is no file"));
    const std::uintmax_t size = fs::file_size(file, error);
    if (!error && size > largest_file_bytes)
        return complaint_about(
            file, ComplaintKind::too_large,
            fmt::format("found {} bytes, expected at most {} in a file of rules", size, largest_file_bytes));
    return std::nullopt;
}

std::optional<std::string> content_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in) return std::nullopt;
    std::string text;
    std::array<char, 16384> part;
    do {
        in.read(part.data(), part.size());
        text.append(part.data(), static_cast<std::size_t>(in.gcount()));
    } while (in);
    if (in.bad()) return std::nullopt;
    return text;
}

std::optional<Complaint> why_not_to_parse(const TomlSource& source) {
    if (source.text.find_first_not_of(" \t\r\n") == std::string::npos)
        return complaint_about(source.file, ComplaintKind::empty_file,
                               "the file is empty; fill it in or remove it");
    if (const auto bad = first_byte_not_utf8(source.text))
        return complaint_at(source, place_of_byte(source.text, *bad), ComplaintKind::not_utf8, "",
                            fmt::format("found byte {:02X} (hexadecimal), expected text in UTF-8",
                                        static_cast<unsigned char>(source.text[*bad])));
    if (const auto line = long_line(source.text))
        return complaint_at(
            source, *line, ComplaintKind::line_too_long, "",
            fmt::format("found a line of more than {} bytes, expected shorter lines", longest_line_bytes));
    return std::nullopt;
}

} // namespace

Complaint complaint_at(const TomlSource& source, Place place, ComplaintKind kind, std::string_view key,
                       std::string_view sentence) {
    constexpr std::size_t longest_excerpt = 200;
    std::string_view line = line_of(source.text, place.line);
    if (line.size() > longest_excerpt) {
        line = line.substr(0, longest_excerpt);
        line = line.substr(0, first_byte_not_utf8(line).value_or(longest_excerpt));
    }
    return {.file = source.file,
            .line = place.line,
            .column = place.column,
            .key = printable(key),
            .expected = printable(sentence),
            .excerpt = printable(line),
            .kind = kind};
}

Complaint complaint_about(const fs::path& path, ComplaintKind kind, std::string sentence) {
    return {.file = path.string(),
            .line = 0,
            .column = 0,
            .key = "",
            .expected = std::move(sentence),
            .excerpt = "",
            .kind = kind};
}

std::optional<TomlSource> read_toml(const fs::path& file, std::vector<Complaint>& complaints) {
    if (auto complaint = why_not_to_open(file)) {
        complaints.push_back(std::move(*complaint));
        return std::nullopt;
    }
    errno = 0;
    auto text = content_of(file);
    if (!text) {
        complaints.push_back(
            complaint_about(file, ComplaintKind::unreadable,
                            fmt::format("cannot be read: {}", std::generic_category().message(errno))));
        return std::nullopt;
    }
    return toml_from_text(std::move(*text), file.string(), complaints);
}

std::optional<TomlSource> toml_from_text(std::string text, const std::string& file,
                                         std::vector<Complaint>& complaints) {
    TomlSource source{.file = file, .text = std::move(text), .root = {}};
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (source.text.starts_with(byte_order_mark)) source.text.erase(0, byte_order_mark.size());
    if (auto complaint = why_not_to_parse(source)) {
        complaints.push_back(std::move(*complaint));
        return std::nullopt;
    }
    auto parsed = parse_toml(source.text);
    if (const auto* error = std::get_if<TomlSyntaxError>(&parsed)) {
        complaints.push_back(complaint_at(source, error->place, ComplaintKind::syntax, "",
                                          fmt::format("this is not TOML: {}", error->description)));
        return std::nullopt;
    }
    source.root = std::get<TomlTable>(std::move(parsed));
    return source;
}

} // namespace coilward
