#pragma once

#include <cstdint>
#include <random>

namespace population {

/// Random draws that are the same on every standard library: the engine is fixed by the C++ standard, the
/// transforms are written out here.
class Random {
public:
    /// `stream` parts the draws of one seed, so that coil 17 is the same whatever was drawn before it.
    Random(std::uint64_t seed, std::uint64_t stream);

    double uniform(); ///< 0 < x < 1
    double uniform(double low, double high);
    double log_uniform(double low, double high);
    double normal(); ///< mean 0, standard deviation 1
    double log_normal(double median, double log_deviation);
    bool chance(double probability);
    std::size_t below(std::size_t count); ///< 0 to count − 1

private:
    std::mt19937_64 engine_;
};

} // namespace population
