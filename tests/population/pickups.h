#pragma once

#include "circuit.h"

#include <cstdint>
#include <filesystem>
#include <ostream>
#include <span>
#include <string_view>

#include <nlohmann/json.hpp>

/// Pickups of two coils in series, drawn as one circuit: both windings with their sections, coupled to each
/// other, and the joint between them.
namespace population {

/// What is wrong with a pickup: `as_expected`, `coil-reversed`, `coils-swapped`, `joint-open`, `still-wired`,
/// or with one of its coils: `open`, `shorted-turns`.
std::span<const std::string_view> pickup_states();

/// Both coils in one network. The second coil's leads are exchanged where it is reversed.
struct PairCircuit {
    Network network;
    int first_start = 0;
    int first_finish = 0;
    int second_start = 0;
    int second_finish = 0;
};

/// Every section of one coil couples with every one of the other by `coupling` · √(L1 L2) · their shares; the
/// coils share no capacitance but the frame. The coils are not joined.
PairCircuit pair_of(const Coil& first, const Damage& of_first, const Coil& second, const Damage& of_second,
                    double coupling, double temperature_c);

/// What the diagnosis sees and what it does not.
struct DrawnPickup {
    nlohmann::ordered_json readings;
    nlohmann::ordered_json label; ///< `state`, and `coil` where one coil is at fault
};

DrawnPickup draw_pickup(std::uint64_t seed, int index);

/// Writes readings.jsonl and labels.jsonl into `out`.
void write_pickups(std::uint64_t seed, int count, const std::filesystem::path& out);

/// A table with a row a state: how often it leads, how often it is decided, and how often something else is
/// decided.
void print_pickup_scores(const std::filesystem::path& labels, const std::filesystem::path& answers,
                         std::ostream&);

} // namespace population
