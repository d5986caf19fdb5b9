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

/// Processor seconds of one call, as the least of several rounds of calls that take long enough to be timed.
template <typename Work>
double seconds_of(Work work) {
    constexpr double long_enough = 0.05;
    constexpr int rounds = 5;
    double least = 1e9;
    long calls = 1;
    for (int round = 0; round < rounds;) {
        const double before = cpu_seconds();
        for (long call = 0; call < calls; ++call)
            work();
        const double taken = cpu_seconds() - before;
        if (taken < long_enough) {
            calls *= 4;
            continue;
        }
        least = std::min(least, taken / static_cast<double>(calls));
        ++round;
    }
    return least;
}

} // namespace coilward
