#pragma once

#include <string>
#include <string_view>
#include <vector>

/// Comma-separated values, RFC 4180.
namespace coilward {

/// A field as it is written: in quotes where it has a comma, a quote or a line break, its quotes doubled.
std::string csv_field(const std::string& text);

/// One record and the line on which it begins, counted from 1.
struct CsvRecord {
    std::size_t line = 1;
    std::vector<std::string> fields; ///< without their quotes; at least one
};

/// Reads records one after the other. Lines may end in CRLF, as the standard wants, or in LF; the last one
/// may have no end.
class CsvReader {
public:
    /// The text must outlive it.
    explicit CsvReader(std::string_view text) : rest_(text) {}

    /// Fills the record with the next one; false at the end. Throws BadDocument with the line where a quote
    /// is not closed, or stands where none may be.
    bool next(CsvRecord&);

private:
    void quoted_field(std::string& field);
    void plain_field(std::string& field);

    std::string_view rest_;
    std::size_t line_ = 1;
};

} // namespace coilward
