#include "toml/complaint.h"

#include <fmt/format.h>

namespace coilward {
namespace {

/// Blank as wide as the first `characters` characters of a UTF-8 line; a tab stays a tab, so that the caret
/// stands under its column however wide tabs are.
std::string blank_as_wide_as(const std::string& line, int characters) {
    std::string blank;
    for (const char byte : line) {
        const bool continues_a_character = (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
        if (continues_a_character) continue;
        if (characters-- <= 0) break;
        blank += byte == '\t' ? '\t' : ' ';
    }
    return blank;
}

} // namespace

std::string Complaint::headline() const {
    std::string where = line > 0 ? fmt::format("{}:{}", file, line) : file;
    if (!key.empty()) where += ": " + key;
    return where + ": " + expected;
}

std::string Complaint::text() const {
    if (line == 0) return headline();
    return fmt::format("{}\n  {}\n  {}^", headline(), excerpt, blank_as_wide_as(excerpt, column - 1));
}

} // namespace coilward
