#pragma once

#include <algorithm>

#include <sys/resource.h>

namespace coilward {

/// Processor seconds so far, of this process or of the children it waited for: what else the machine does
/// hardly counts.
inline double cpu_seconds(int who = RUSAGE_SELF) {
    rusage usage{};
    ::getrusage(who, &usage);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
    };
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

/// Processor seconds of one call: of calls one after the other, as many as take long enough to be timed.
/// `calls` is how many those are, to begin with 1.
template <typename Work>
double seconds_of(Work& work, long& calls) {
    constexpr double long_enough = 0.05;
    for (;;) {
        const double before = cpu_seconds();
        for (long call = 0; call < calls; ++call)
            work();
        const double taken = cpu_seconds() - before;
        if (taken >= long_enough) return taken / static_cast<double>(calls);
        calls *= 4;
    }
}

/// Processor seconds of our work and of theirs.
struct SecondsBeside {
    double ours = 1e9;
    double theirs = 1e9;
};

constexpr int rounds_beside = 5;

/// The least seconds that either took. Each function measures one round of its work; they take turns, because
/// a machine that others use too is at times half as fast, and what others do can only add to a time.
template <typename Ours, typename Theirs>
SecondsBeside least_beside(Ours ours, Theirs theirs) {
    SecondsBeside least;
    for (int round = 0; round < rounds_beside; ++round) {
        least.ours = std::min(least.ours, ours());
        least.theirs = std::min(least.theirs, theirs());
    }
    return least;
}

/// Measures one round of calls of the work (seconds_of), as least_beside() wants it.
template <typename Work>
auto timed(Work work) {
    return [work, calls = 1L]() mutable { return seconds_of(work, calls); };
}

} // namespace coilward
