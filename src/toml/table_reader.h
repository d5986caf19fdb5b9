#pragma once

#include "reading/quantity.h"
#include "toml/measure.h"
#include "toml/toml_source.h"
#include "units/range.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// Whether a missing key is a complaint.
enum class Need { required, optional };

/// A word that a key may have, and what it stands for.
template <typename Kind>
struct Word {
    std::string_view text; ///< as the file has it
    Kind kind;
};

/// Typed access to one table of a TOML file. Everything wrong becomes a complaint and an empty answer; the
/// reader remembers which keys were asked for, so that the others can be refused as unknown.
class TableReader {
public:
    /// The file itself. Source and complaints must outlive the reader.
    TableReader(const TomlSource&, std::vector<Complaint>&);

    /// Words; an empty text is a complaint.
    std::optional<std::string> text(std::string_view key, Need);

    /// True or false, without quotes.
    std::optional<bool> flag(std::string_view key, Need);

    /// In the unit of the measure, and within it.
    std::optional<double> number(std::string_view key, Need, const Measure&);

    /// From low to high, both allowed.
    std::optional<int> whole_number(std::string_view key, Need, int low, int high);

    /// `[low, high]` with low < high, both within the measure.
    std::optional<Range> range(std::string_view key, Need, const Measure&);

    /// A list of such ranges, at least one.
    std::vector<Range> ranges(std::string_view key, Need, const Measure&);

    /// A list of numbers; a required one holds at least one.
    std::vector<double> numbers(std::string_view key, Need, const Measure&);

    /// A list of texts; a required one holds at least one.
    std::vector<std::string> texts(std::string_view key, Need);

    /// One of these words, and what it stands for.
    template <typename Kind>
    std::optional<Kind> word(std::string_view key, Need need, std::span<const Word<Kind>> words) {
        std::vector<std::string_view> names;
        for (const Word<Kind>& each : words)
            names.push_back(each.text);
        const auto index = word_index(key, need, names);
        if (!index) return std::nullopt;
        return words[*index].kind;
    }

    /// One of the words of a readings document, e.g. `vocabulary_word("circuit", need, circuit_named)`.
    template <typename Kind>
    std::optional<Kind> vocabulary_word(std::string_view key, Need need,
                                        std::optional<Kind> (*named)(std::string_view)) {
        const std::vector<std::string_view> names = all_names<Kind>();
        const auto index = word_index(key, need, names);
        if (!index) return std::nullopt;
        return named(names[*index]);
    }

    /// `[key]`
    std::optional<TableReader> table(std::string_view key, Need);

    /// `[[key]]`, or a list of inline tables; a required one holds at least one.
    std::vector<TableReader> tables(std::string_view key, Need);

    /// Keys that are not unknown although someone else reads them.
    void know(std::span<const std::string_view> keys) {
        known_keys_.insert(known_keys_.end(), keys.begin(), keys.end());
    }

    /// Whether the key is there, whatever its value.
    bool has(std::string_view key) const { return entry(*table_, key) != nullptr; }

    /// What this reader reads.
    const TomlTable& content() const { return *table_; }

    /// A complaint about a key's value, or about the table where the key is absent.
    void complain(ComplaintKind, std::string_view key, std::string_view sentence);

    /// A complaint about the table itself.
    void complain(ComplaintKind, std::string_view sentence);

    /// To be called last: each key that was never asked for is a complaint that names the nearest known one.
    void refuse_unknown_keys();

private:
    TableReader(const TableReader& parent, const TomlTable&, Place, std::string path);

    /// What a complaint names: a key, or one of the list under it. Put into words only when there is one.
    struct Name {
        std::string_view key;
        std::optional<std::size_t> element{};
    };

    // `expected` is a function that says what should be there, asked only when there is something to complain
    // about.

    /// The value of a key; a complaint and nothing where it is needed and absent.
    template <typename Words>
    const TomlNode* node(std::string_view key, Need, const Words& expected);

    /// The list under a key; a complaint where it is none, or required and empty.
    template <typename Words>
    const TomlArray* list(std::string_view key, Need, const Words& expected);

    std::optional<std::string> text_in(const TomlNode&, Name);
    std::optional<double> number_in(const TomlNode&, Name, const Measure&);
    std::optional<std::size_t> word_index(std::string_view key, Need,
                                          std::span<const std::string_view> words);
    std::optional<Range> range_in(const TomlNode&, Name, const Measure&);
    std::string dotted(Name) const;
    void complain_at(Place, ComplaintKind, Name, std::string_view sentence);
    void complain_of_type(const TomlNode&, Name, std::string_view expected);

    const TomlSource* source_;
    std::vector<Complaint>* complaints_;
    const TomlTable* table_;
    Place place_;
    std::string path_;                    ///< the table's own dotted key, "" for the file itself
    std::vector<std::string> known_keys_; ///< as they were asked for; some more than once
};

} // namespace coilward
