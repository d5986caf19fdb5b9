#include "meter/instrument_names.h"

#include <algorithm>
#include <cctype>
#include <vector>

namespace coilward {
namespace {

bool is_word_character(char character) {
    return std::isalnum(static_cast<unsigned char>(character)) || character == '-';
}

/// Letters in capitals.
std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words(1);
    for (const char character : text) {
        if (is_word_character(character))
            words.back() += static_cast<char>(std::toupper(static_cast<unsigned char>(character)));
        else if (!words.back().empty())
            words.emplace_back();
    }
    if (words.back().empty()) words.pop_back();
    return words;
}

bool is_model(const std::string& word) {
    return word.size() >= 3 && std::ranges::any_of(word, [](char c) { return c >= '0' && c <= '9'; });
}

} // namespace

std::optional<std::string> instrument_named_in(const Driver& driver, std::string_view text) {
    const auto said = words_of(text);
    const auto is_said = [&](const std::string& word) { return std::ranges::find(said, word) != said.end(); };
    for (const std::string& instrument : driver.instruments) {
        const auto words = words_of(instrument); // "Keysight E4980A, E4980AL": the maker comes first
        if (words.empty() || !is_said(words.front())) continue;
        for (const std::string& word : words)
            if (is_model(word) && is_said(word)) return words.front() + " " + word;
    }
    return std::nullopt;
}

} // namespace coilward
