#include "history/pickup_key.h"

#include <algorithm>
#include <charconv>
#include <iterator>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::size_t most_candidates_named = 8;

bool is_digit(char character) {
    return character >= '0' && character <= '9';
}

bool is_kept(char character) {
    return is_digit(character) || (character >= 'a' && character <= 'z') ||
           static_cast<unsigned char>(character) >= 0x80;
}

char lower(char character) {
    return character >= 'A' && character <= 'Z' ? static_cast<char>(character - 'A' + 'a') : character;
}

std::optional<std::int64_t> number_in(std::string_view key) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(key.data(), key.data() + key.size(), number);
    if (error != std::errc() || end != key.data() + key.size()) return std::nullopt;
    return number;
}

/// "3 (neck, blue guitar), 7 (neck)" and how many more.
std::string in_words(const std::vector<Pickup>& candidates) {
    std::string words;
    for (const auto& pickup : std::span(candidates).first(std::min(candidates.size(), most_candidates_named)))
        words += fmt::format("{}{} ({})", words.empty() ? "" : ", ", pickup.number, pickup.name);
    if (candidates.size() > most_candidates_named)
        words += fmt::format(" and {} more", candidates.size() - most_candidates_named);
    return words;
}

} // namespace

std::string slug_of(std::string_view name) {
    std::string slug;
    for (const char character : name) {
        const char kept = lower(character);
        if (is_kept(kept))
            slug += kept;
        else if (!slug.empty() && slug.back() != '-')
            slug += '-';
    }
    if (slug.ends_with('-')) slug.pop_back();
    return slug;
}

Pickup pickup_named(const History& history, std::string_view key) {
    if (const auto number = number_in(key))
        if (auto pickup = history.pickup(*number)) return *std::move(pickup);

    const auto slug = slug_of(key);
    auto candidates = slug.empty() ? std::vector<Pickup>{} : history.pickups_with_slug(slug);
    std::vector<Pickup> whole;
    std::ranges::copy_if(candidates, std::back_inserter(whole),
                         [&](const Pickup& pickup) { return slug_of(pickup.name) == slug; });
    if (!whole.empty()) candidates = std::move(whole);

    if (candidates.empty())
        throw BadPickupKey(
            fmt::format("pickup \"{}\": {} has no such number or name; coilward pickup list shows them", key,
                        history.place()));
    if (candidates.size() > 1)
        throw BadPickupKey(
            fmt::format("pickup \"{}\" may be any of {}; say its number", key, in_words(candidates)));
    return std::move(candidates.front());
}

} // namespace coilward
