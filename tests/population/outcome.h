#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace population {

struct Interval {
    double low = 0.0;
    double value = 0.0;
    double high = 0.0;
};

/// What was true of one coil and what the diagnosis said of it.
struct Outcome {
    std::string id;
    std::string fault;
    std::map<std::string, double> severities;
    std::string coil_model;
    std::string world;
    std::string protocol;
    double nominal_resistance_ohm = 0.0;
    std::optional<double> resistance_read_ohm;

    bool answered = false; ///< false: an error, or no line with this id
    std::string named;     ///< the fault that leads
    double probability = 0.0;
    bool decided = false;
    std::map<std::string, double> probabilities; ///< of every fault
    std::map<std::string, Interval> estimates;   ///< of the fault that is the true one

    bool right() const { return answered && named == fault; }
};

/// Pairs the lines of the two files by `id`, in the order of the labels. Throws with the line of a bad one.
std::vector<Outcome> read_outcomes(const std::filesystem::path& labels, const std::filesystem::path& answers);

} // namespace population
