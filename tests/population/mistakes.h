#pragma once

#include <cstdint>
#include <filesystem>
#include <ostream>
#include <span>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

/// Mistakes that people make at a bench, with readings of healthy coils: what a diagnosis must not take for a
/// fault of the coil.
namespace population {

struct Mistake {
    std::string_view name;
    /// What may lead without harm: `unexplained`, the coil as it is, or what the mistake amounts to.
    std::vector<std::string_view> fair;
    /// Makes it in a document; `other` is that of a healthy coil of another model. False where it cannot be
    /// made.
    bool (*make)(nlohmann::ordered_json& document, const nlohmann::ordered_json& other, std::uint64_t seed);
};

std::span<const Mistake> mistakes();

/// Writes readings.jsonl and labels.jsonl with `count` documents of each mistake.
void write_mistakes(std::uint64_t seed, int count, const std::filesystem::path& out);

/// A table with a row a mistake: how often what leads is fair, and how often something else is decided.
void print_mistake_scores(const std::filesystem::path& labels, const std::filesystem::path& answers,
                          std::ostream&);

} // namespace population
