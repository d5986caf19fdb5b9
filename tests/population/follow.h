#pragma once

#include <filesystem>
#include <ostream>
#include <string>

namespace population {

/// What is run, and on what.
struct FollowOptions {
    std::string program;         ///< the built coilward
    std::filesystem::path rules; ///< with the simulated coil models
    std::filesystem::path drawn; ///< a folder with readings.jsonl and labels.jsonl
    int count = 300;             ///< of its coils
};

/// Follows `next`: begins with temperature and resistance, takes what the diagnosis asks for while it is not
/// decided, and stops where it asks for nothing that was drawn. Prints how often the verdict is that of all
/// readings, and the share of their bench seconds that it took.
void print_follow_scores(const FollowOptions&, std::ostream&);

} // namespace population
