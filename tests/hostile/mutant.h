#pragma once

#include <cstdint>
#include <functional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

namespace coilward::testing {

/// A sound file, and by what name a failure calls it.
struct Original {
    std::string name;
    std::string text;
};

/// A file that was harmed: how often and by what follows from the seed alone.
struct Mutant {
    std::uint64_t seed = 0;
    const Original* original = nullptr;
    std::string text;
    std::string story; ///< what was done to it, one harm after the other
};

/// One to three harms: bytes flipped, cut or doubled, lines swapped, numbers made huge, tiny, negative, NaN
/// or of another unit, keys renamed, values of another type or nested deeply, units changed, text that is no
/// UTF-8.
Mutant mutant_of(const Original&, std::uint64_t seed);

/// What became of the mutants.
struct Ends {
    std::size_t refused = 0;
    std::size_t accepted = 0;
};

/// Hands out `count` mutants, those of seeds `first`, `first` + 1, …, of the originals in turn. `try_one`
/// says whether it was accepted. Prints how they ended, and with each failure the seed and the story. With
/// COILWARD_HOSTILE_SEED=N only that one is tried, and its text printed; COILWARD_HOSTILE_SHIFT=N adds N to
/// all seeds. More than ten seconds of processor time for one is a failure.
Ends try_mutants(const std::vector<Original>&, std::uint64_t first, std::size_t count,
                 const std::function<bool(const Mutant&)>& try_one);

/// Expects that at least so many ended each way, so that the loop did test something.
void expect_both(const Ends&, std::size_t refused, std::size_t accepted);

/// Every file below the folder with that ending, in the order of their names.
std::vector<Original> originals_below(const std::string& folder, std::string_view ending);

/// Expects one line that can be printed and is not endless.
void expect_one_line(const std::string& refusal);

/// Expects besides that it names the place (a line, a column, a member, a file) and what is wrong there.
void expect_useful(const std::string& refusal);

} // namespace coilward::testing
