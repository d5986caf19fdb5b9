#include "random.h"

#include <cmath>
#include <numbers>

namespace population {
namespace {

/// The finaliser of splitmix64, which spreads neighbouring seeds over all 64 bits.
std::uint64_t scatter(std::uint64_t x) {
    x += 0x9e3779b97f4a7c15ULL;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
    return x ^ (x >> 31);
}

} // namespace

Random::Random(std::uint64_t seed, std::uint64_t stream) : engine_(scatter(scatter(seed) ^ stream)) {}

double Random::uniform() {
    return (static_cast<double>(engine_() >> 11) + 0.5) * 0x1.0p-53;
}

double Random::uniform(double low, double high) {
    return low + (high - low) * uniform();
}

double Random::log_uniform(double low, double high) {
    return low * std::pow(high / low, uniform());
}

double Random::normal() {
    const double radius = std::sqrt(-2.0 * std::log(uniform()));
    return radius * std::cos(2.0 * std::numbers::pi * uniform());
}

double Random::log_normal(double median, double log_deviation) {
    return median * std::exp(log_deviation * normal());
}

bool Random::chance(double probability) {
    return uniform() < probability;
}

std::size_t Random::below(std::size_t count) {
    return static_cast<std::size_t>(uniform() * static_cast<double>(count));
}

} // namespace population
