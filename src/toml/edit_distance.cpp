#include "toml/edit_distance.h"

#include <algorithm>
#include <numeric>
#include <vector>

namespace coilward {

std::size_t edit_distance(std::string_view a, std::string_view b) {
    // The distances of the letters of `a` so far to each beginning of `b`.
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (const char letter : a) {
        std::size_t diagonal = row[0]++;
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t exchanged = diagonal + (letter == b[j] ? 0 : 1);
            diagonal = row[j + 1];
            row[j + 1] = std::min({exchanged, row[j] + 1, row[j + 1] + 1});
        }
    }
    return row.back();
}

std::optional<std::string_view> nearest(std::string_view word, std::span<const std::string_view> words) {
    const auto distance = [&](std::string_view other) { return edit_distance(word, other); };
    const auto best = std::ranges::min_element(words, {}, distance);
    if (best == words.end() || 3 * distance(*best) > best->size() + 1) return std::nullopt;
    return *best;
}

} // namespace coilward
