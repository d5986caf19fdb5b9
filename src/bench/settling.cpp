#include "bench/settling.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace coilward {
namespace {

using Readings = std::vector<StampedReading>;

std::vector<double> numbers_in(const Readings& readings) {
    std::vector<double> numbers;
    for (const StampedReading& each : readings)
        if (each.reading.value && each.reading.state == State::ok) numbers.push_back(*each.reading.value);
    return numbers;
}

double mean_of(const std::vector<double>& numbers) {
    return std::accumulate(numbers.begin(), numbers.end(), 0.0) / static_cast<double>(numbers.size());
}

double half_span(const std::vector<double>& numbers) {
    const auto [low, high] = std::ranges::minmax(numbers);
    return (high - low) / 2.0;
}

/// Standard deviation of the mean, from the scatter (JCGM 100:2008, 4.2.3).
double deviation_of_mean(const std::vector<double>& numbers) {
    const double mean = mean_of(numbers);
    double sum = 0.0;
    for (const double number : numbers)
        sum += (number - mean) * (number - mean);
    const auto count = static_cast<double>(numbers.size());
    return std::sqrt(sum / (count * (count - 1.0)));
}

/// The mean with its scatter. Where the meter's own accuracy is not known the scatter alone would claim too
/// much, so then there is no uncertainty.
Reading settled_number(const Readings& recent, const std::vector<double>& numbers) {
    Reading reading = recent.back().reading;
    reading.value = mean_of(numbers);
    if (reading.standard_uncertainty)
        reading.standard_uncertainty = std::hypot(*reading.standard_uncertainty, deviation_of_mean(numbers));
    return reading;
}

Reading unstable(const Readings& recent) {
    Reading reading = recent.back().reading;
    const auto numbers = numbers_in(recent);
    reading.state = State::unstable;
    reading.standard_uncertainty.reset();
    reading.limit.reset();
    reading.value.reset();
    reading.spread.reset();
    if (numbers.empty()) return reading;
    reading.value = mean_of(numbers);
    reading.spread = half_span(numbers);
    // Numbers among over-ranges: it wandered at least by itself.
    if (numbers.size() < recent.size()) reading.spread = std::max(*reading.spread, std::abs(*reading.value));
    return reading;
}

bool all_in_one_state(const Readings& recent) {
    const State state = recent.front().reading.state;
    return state != State::ok && std::ranges::all_of(recent, [&](const StampedReading& each) {
               return each.reading.state == state;
           });
}

bool agree(const Readings& recent, const std::vector<double>& numbers, const SettlingRule& rule) {
    if (numbers.size() < recent.size()) return false;
    double step = 0.0;
    for (const StampedReading& each : recent)
        step = std::max(step, each.resolution);
    return half_span(numbers) <= std::max(rule.steps * step, rule.relative * std::abs(mean_of(numbers)));
}

} // namespace

std::optional<Reading> Settling::offer(const StampedReading& reading) {
    if (!began_) began_ = reading.at;
    recent_.push_back(reading);
    const bool watched = rule_.watch_for > std::chrono::milliseconds(0);
    if (!watched && recent_.size() > rule_.readings) recent_.erase(recent_.begin());
    const bool enough = recent_.size() >= rule_.readings && reading.at - *began_ >= rule_.watch_for;
    const auto numbers = numbers_in(recent_);
    std::optional<Reading> settled;
    if (enough && all_in_one_state(recent_)) settled = recent_.back().reading;
    if (enough && agree(recent_, numbers, rule_)) settled = settled_number(recent_, numbers);
    if (!settled && enough && (watched || reading.at - *began_ >= rule_.give_up_after))
        settled = unstable(recent_);
    if (settled) {
        recent_.clear();
        began_.reset();
    }
    return settled;
}

} // namespace coilward
