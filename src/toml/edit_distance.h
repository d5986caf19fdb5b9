#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace coilward {

/// How many letters (bytes) must be put in, taken out or exchanged to make one word of the other
/// (Levenshtein).
std::size_t edit_distance(std::string_view, std::string_view);

/// The word that was probably meant: the nearest one, if about a third of its letters differ at most.
std::optional<std::string_view> nearest(std::string_view word, std::span<const std::string_view> words);

} // namespace coilward
