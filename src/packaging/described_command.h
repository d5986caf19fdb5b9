#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace coilward {

/// An option, or a word that stands by its place, as the program's help tells of it.
struct DescribedOption {
    std::vector<std::string> names; ///< "--listen"; of a word: "PICKUP"
    std::string value;              ///< "DRIVER", "{terminal,tcp}"; empty for a flag and for a word
    std::string meaning;            ///< one sentence, with its terms in brackets
    bool required = false;          ///< must be given
    bool may_be_repeated = false;
};

/// A command, and those below it.
struct DescribedCommand {
    std::vector<std::string> path;          ///< "coilward", "pickup", "add"
    std::string meaning;                    ///< one sentence
    std::string group;                      ///< under what the help lists it
    std::string footer;                     ///< examples and notes behind the options; may be empty
    std::vector<DescribedOption> words;     ///< that stand by their place, in order
    std::vector<DescribedOption> options;   ///< its own, with --help
    std::vector<DescribedCommand> commands; ///< below it

    /// The last of the path.
    const std::string& name() const { return path.back(); }

    /// "coilward pickup add", with another separator if wanted.
    std::string full_name(const char* separator = " ") const;
};

/// All that the library was told of the program: the one source of help, manual pages and completions.
DescribedCommand described_program();

/// A command, then all below it.
std::vector<const DescribedCommand*> with_all_below(const DescribedCommand&);

} // namespace coilward
