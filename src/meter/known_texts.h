#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace coilward {

/// What a text of a protocol is told by: itself, or the name in front of what it stands for.
inline std::string_view text_of(const std::string& text) {
    return text;
}

/// The name.
template <typename Value>
std::string_view text_of(const std::pair<std::string, Value>& named) {
    return named.first;
}

/// Texts that a protocol knows, in the order of the file. Every line is compared with them and most have
/// another first character than all of them, so it is known for each character where the texts that begin
/// with it stand.
template <typename Item>
class KnownTexts {
public:
    KnownTexts() = default;

    /// In this order.
    KnownTexts(std::initializer_list<Item> items) {
        for (const Item& item : items)
            push_back(item);
    }

    /// In this order.
    explicit KnownTexts(std::vector<Item> items) {
        for (Item& item : items)
            push_back(std::move(item));
    }

    /// Behind the others; at most 65,535 in all.
    void push_back(Item item) {
        const auto place = static_cast<std::uint16_t>(items_.size());
        Reach& reach = reach_[slot(text_of(item))];
        if (reach.end == 0) reach.first = place;
        reach.end = static_cast<std::uint16_t>(place + 1);
        items_.push_back(std::move(item));
    }

    /// Those among which a text must be that begins as this one does, with others between them.
    std::span<const Item> like(std::string_view text) const {
        const Reach& reach = reach_[slot(text)];
        if (reach.end == 0) return {}; // nearly always
        return {items_.data() + reach.first, static_cast<std::size_t>(reach.end - reach.first)};
    }

    /// In the order of the file.
    auto begin() const { return items_.begin(); }

    /// Behind the last.
    auto end() const { return items_.end(); }

    /// True without any text.
    bool empty() const { return items_.empty(); }

private:
    struct Reach {
        std::uint16_t first = 0;
        std::uint16_t end = 0; ///< 0: no text begins so
    };

    /// The first character, or the place of the empty text.
    static std::size_t slot(std::string_view text) {
        return text.empty() ? characters : static_cast<unsigned char>(text.front());
    }

    static constexpr std::size_t characters = 256;
    std::vector<Item> items_;
    std::array<Reach, characters + 1> reach_{};
};

} // namespace coilward
