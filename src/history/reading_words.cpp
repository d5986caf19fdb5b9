#include "history/reading_words.h"

#include "history/database.h"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

namespace coilward {

ReadingWords::ReadingWords(Database& database) {
    for (const SqlRow& row : database.run("SELECT column_name, code, word FROM words"))
        rows_.push_back({text_in(row[0]), whole_in(row[1]), text_in(row[2])});
}

std::int64_t ReadingWords::code(std::string_view column, std::string_view word) const {
    const auto row =
        std::ranges::find_if(rows_, [&](const Row& r) { return r.column == column && r.word == word; });
    if (row == rows_.end()) throw std::out_of_range(fmt::format("no code for the {} \"{}\"", column, word));
    return row->code;
}

std::string_view ReadingWords::word(std::string_view column, std::int64_t code) const {
    const auto row =
        std::ranges::find_if(rows_, [&](const Row& r) { return r.column == column && r.code == code; });
    return row == rows_.end() ? std::string_view{} : std::string_view{row->word};
}

} // namespace coilward
