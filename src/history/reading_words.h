#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

class Database;

/// The small numbers that stand for the words of a reading, as the file's own table `words` has them. The
/// order of an enumeration in the program may change; what is in a file never does.
class ReadingWords {
public:
    /// Reads the table. Throws HistoryError.
    explicit ReadingWords(Database&);

    /// `column` is "quantity", "between", "circuit", "state", "polarity" or "handling". Throws
    /// std::out_of_range for a word that the schema does not have.
    std::int64_t code(std::string_view column, std::string_view word) const;

    /// Empty for a code that the file does not explain.
    std::string_view word(std::string_view column, std::int64_t code) const;

private:
    struct Row {
        std::string column;
        std::int64_t code;
        std::string word;
    };

    std::vector<Row> rows_;
};

} // namespace coilward
