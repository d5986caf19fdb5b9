#pragma once

#include <concepts>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

namespace coilward {

/// What a fuzzer asks of every input. Where it does not hold the fuzzer stops and keeps the input.
inline void require(bool holds, std::string_view what, std::string_view detail = {}) {
    if (holds) return;
    std::fprintf(stderr, "does not hold: %.*s\n%.*s\n", static_cast<int>(what.size()), what.data(),
                 static_cast<int>(detail.size()), detail.data());
    std::abort();
}

/// The same with a detail that is only put together where it is needed.
template <std::invocable Detail>
void require(bool holds, std::string_view what, const Detail& detail) {
    if (!holds) require(false, what, std::string_view(detail()));
}

/// A refusal is one line of text that can be printed.
inline void require_one_line(std::string_view message) {
    require(!message.empty(), "a refusal says something");
    for (const char character : message)
        require(static_cast<unsigned char>(character) >= 0x20 || character == '\t',
                "a refusal is one line without control characters", message);
}

/// What libFuzzer gives.
inline std::string text_of_input(const std::uint8_t* data, std::size_t size) {
    return {data, data + size};
}

} // namespace coilward
