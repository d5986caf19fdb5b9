#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include <benchmark/benchmark.h>

/// The least that could be done with the same bytes, to judge the other rows by: copy them, or find their
/// lines.
namespace coilward {

inline void copy_bytes(benchmark::State& state, const std::string& bytes) {
    std::string copy(bytes.size(), '\0');
    for (auto _ : state) {
        copy.assign(bytes);
        benchmark::DoNotOptimize(copy.data());
        benchmark::ClobberMemory();
    }
    state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(bytes.size()));
}

inline void count_lines(benchmark::State& state, const std::string& bytes) {
    for (auto _ : state) {
        std::size_t lines = 0;
        for (std::string_view rest = bytes; !rest.empty(); ++lines) {
            const std::size_t end = rest.find('\n');
            rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
        }
        benchmark::DoNotOptimize(lines);
    }
    state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(bytes.size()));
}

} // namespace coilward
