#include "history/csv.h"

#include "reading/examination_json.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {

std::string csv_field(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

bool CsvReader::next(CsvRecord& record) {
    record.line = line_;
    std::size_t count = 0;
    if (rest_.empty()) return false;
    for (bool more = true; more;) {
        if (count == record.fields.size()) record.fields.emplace_back();
        std::string& field = record.fields[count++];
        field.clear();
        if (rest_.starts_with('"'))
            quoted_field(field);
        else
            plain_field(field);
        more = rest_.starts_with(',');
        if (more) rest_.remove_prefix(1);
    }
    if (rest_.starts_with("\r\n")) rest_.remove_prefix(1);
    if (rest_.starts_with('\n')) rest_.remove_prefix(1);
    ++line_;
    record.fields.resize(count);
    return true;
}

void CsvReader::quoted_field(std::string& field) {
    const std::size_t begin = line_;
    rest_.remove_prefix(1);
    for (;;) {
        const auto quote = rest_.find('"');
        if (quote == std::string_view::npos)
            throw BadDocument(fmt::format("line {}: a quote is opened and never closed; close it", begin));
        field += rest_.substr(0, quote);
        line_ += static_cast<std::size_t>(std::ranges::count(rest_.substr(0, quote), '\n'));
        rest_.remove_prefix(quote + 1);
        if (!rest_.starts_with('"')) break;
        field += '"';
        rest_.remove_prefix(1);
    }
    if (!rest_.empty() && !rest_.starts_with(',') && !rest_.starts_with('\n') && !rest_.starts_with("\r\n"))
        throw BadDocument(fmt::format(
            "line {}: something follows a closing quote; a quote within a field is written twice", line_));
}

void CsvReader::plain_field(std::string& field) {
    auto end = std::min(rest_.find_first_of(",\n\""), rest_.size());
    if (end < rest_.size() && rest_[end] == '"')
        throw BadDocument(fmt::format("line {}: a quote stands within a field without quotes; put the field "
                                      "in quotes and double the quote",
                                      line_));
    const bool crlf = end < rest_.size() && rest_[end] == '\n' && end > 0 && rest_[end - 1] == '\r';
    if (crlf) --end;
    field = rest_.substr(0, end);
    rest_.remove_prefix(end);
}

} // namespace coilward
