#pragma once

#include <string>

namespace coilward {

/// What can be wrong with a folder of rules or drivers, one name for each sentence that a reader can say.
enum class ComplaintKind {
    // the folder and its files
    missing_folder,
    not_a_folder,
    empty_folder,
    missing_file,
    unreadable,
    not_a_file,
    too_large,
    empty_file,
    not_utf8,
    line_too_long,
    syntax,
    // one key
    missing_key,
    unknown_key,
    wrong_type,
    empty_text,
    empty_list,
    not_finite,
    not_positive,
    wrong_magnitude,
    out_of_bounds,
    not_low_and_high,
    low_not_below_high,
    unknown_word,
    // one file
    id_is_not_file_name,
    duplicate_id,
    not_exactly_one,
    flange_inside_core,
    said_twice,
    overlapping_bands,
    wrong_weight_count,
    missing_severity,
    chances_do_not_sum,
    too_few_cases,
    bad_reading,
    wrong_coil_count,
    not_exactly_one_joint,
    // between files
    unknown_coil_model,
    not_exactly_one_fault,
    count, ///< how many kinds there are; not a kind
};

/// One thing wrong in a file of rules or a driver: where, what was found, what was expected, and the line
/// itself with a caret.
struct Complaint {
    std::string file;     ///< as it was named
    int line = 0;         ///< from 1; 0 where the complaint is about the whole file or folder
    int column = 0;       ///< from 1, in characters
    std::string key;      ///< dotted, as "expect.dc_resistance"; may be empty for a syntax error
    std::string expected; ///< one sentence: what is wrong and what was expected
    std::string excerpt;  ///< the line of the file
    ComplaintKind kind{};

    /// "rules/coils/x.toml:14: expect.dc_resistance: …": the first line of text(), for where there is room
    /// for one.
    std::string headline() const;

    /// The headline, then the line of the file and a caret under the column.
    std::string text() const;
};

} // namespace coilward
