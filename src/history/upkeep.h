#pragma once

#include "history/history.h"

#include <string>
#include <vector>

namespace coilward {

/// A sound copy of the history as it is at this moment, while others may write to it, in a new file; whole or
/// not at all. Throws HistoryError, also where there is a file of that name.
void back_up(const History&, const std::filesystem::path& new_file);

/// What is wrong with the history, one line each: pages of the file, rows that belong to nothing, readings
/// that nobody can read, corrections in a circle. Empty where all is well. Throws HistoryError.
std::vector<std::string> problems_in(const History&);

/// What a merge brought.
struct Merged {
    std::size_t pickups = 0;
    std::size_t visits = 0;
    std::size_t readings = 0;
    std::size_t verdicts = 0;
    std::vector<std::string> conflicts; ///< pickups that are described differently: both descriptions
};

/// Takes over from another bench's history the pickups, visits, readings and verdicts that this one has not.
/// Everything is known by its id, so that merging again brings nothing. What a pickup is called here stays;
/// where the other calls it differently, that is a conflict for a person. Throws HistoryError.
Merged merge(History& into, const History& from);

} // namespace coilward
