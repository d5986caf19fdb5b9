#pragma once

#include "history/whole_pickup.h"

#include <filesystem>

namespace coilward {

/// A sound copy of the history as it is at this moment, while others may write to it, in a new SQLite file;
/// whole or not at all. Throws HistoryError, also where there is a file of that name.
void back_up(const History&, const std::filesystem::path& new_file);

/// Takes over from another bench's history what this one has not, all or nothing. Everything is known by its
/// id, so that merging again brings nothing, and two benches that merge each other end alike: of two values
/// that a field was given the later holds, of two corrections the later counts, and both stay. Throws
/// HistoryError.
Adopted merge(History& into, const History& from);

/// Copies a whole history into another, in SQLite or in PostgreSQL, and compares what each then exports.
/// Again it brings nothing. Throws HistoryError, also where the other holds more than this one.
Adopted move_history(const History& from, History& to);

} // namespace coilward
