#include "bench/polarity_kick.h"

#include "metrology/normal.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace coilward {
namespace {

constexpr double deviations_in_median_distance = 1.4826;
constexpr std::size_t agreeing_touches = 3;

double median_of(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::ranges::nth_element(values, middle);
    if (values.size() % 2 == 1) return *middle;
    return (*middle + *std::max_element(values.begin(), middle)) / 2.0;
}

double root_mean_square(const std::vector<double>& values) {
    const double squares = std::inner_product(values.begin(), values.end(), values.begin(), 0.0);
    return std::sqrt(squares / static_cast<double>(values.size()));
}

/// The voltage that the display shows; infinite beyond its range, nothing for anything else.
std::optional<double> volts_of(const Reading& reading) {
    if (reading.quantity != Quantity::dc_voltage) return std::nullopt;
    switch (reading.state) {
    case State::ok:
        return reading.value;
    case State::over_range:
        return std::numeric_limits<double>::infinity();
    case State::under_range:
        return -std::numeric_limits<double>::infinity();
    default:
        return std::nullopt;
    }
}

} // namespace

std::optional<Kick> KickWatch::offer(const StampedReading& reading) {
    const auto volts = volts_of(reading.reading);
    if (!volts) return std::nullopt;
    const Sample sample{.at = reading.at, .volts = *volts};
    const auto kick = baseline_ ? touch(sample) : rest(sample, reading.resolution);
    if (kick) *this = KickWatch(rule_);
    return kick;
}

/// Gathers readings until the time of rest is over, then makes the baseline of them.
std::optional<Kick> KickWatch::rest(const Sample& sample, double step) {
    at_rest_.push_back(sample);
    step_ = std::max(step_, step);
    if (sample.at - at_rest_.front().at < rule_.still) return std::nullopt;
    if (at_rest_.size() < rule_.fewest) return Kick{.outcome = Kick::Outcome::too_few};
    std::vector<double> values;
    for (const Sample& each : at_rest_)
        values.push_back(each.volts);
    const double middle = median_of(values);
    if (!std::isfinite(middle)) return Kick{.outcome = Kick::Outcome::too_early};
    for (double& value : values)
        value = std::abs(value - middle);
    const double robust = std::max(deviations_in_median_distance * median_of(values), step_);
    if (std::ranges::max(values) > threshold_for(robust)) return Kick{.outcome = Kick::Outcome::too_early};
    const double spread = std::max(robust, root_mean_square(values));
    baseline_ = {.known = sample.at, .volts = middle, .spread = spread, .threshold = threshold_for(spread)};
    return std::nullopt;
}

double KickWatch::threshold_for(double spread) const {
    return std::max({rule_.spreads * spread, rule_.steps * step_, rule_.volts});
}

/// Waits for a kick, and after it for the other sign, while the steel is held.
std::optional<Kick> KickWatch::touch(const Sample& sample) {
    const double distance = sample.volts - baseline_->volts;
    const bool beyond = std::abs(distance) > baseline_->threshold;
    if (!peak_ && sample.at - baseline_->known > rule_.within) return Kick{.outcome = Kick::Outcome::none};
    if (peak_ && sample.at - peak_->at > rule_.hold) return sign_of_peak();
    if (!beyond) return std::nullopt;
    if (!peak_) {
        peak_ = {.at = sample.at, .volts = distance};
    } else if (std::signbit(distance) != std::signbit(peak_->volts)) {
        return Kick{.outcome = Kick::Outcome::both_signs, .peak = peak_->volts};
    } else if (std::abs(distance) > std::abs(peak_->volts)) {
        peak_->volts = distance;
    }
    return std::nullopt;
}

Kick KickWatch::sign_of_peak() const {
    const double peak = peak_->volts;
    const double ratio = baseline_->spread > 0.0 ? std::abs(peak) / baseline_->spread
                                                 : std::numeric_limits<double>::infinity();
    return {.outcome = peak > 0.0 ? Kick::Outcome::positive : Kick::Outcome::negative,
            .peak = peak,
            .confidence = normal_cumulative(ratio)};
}

std::optional<Kick> agreed_polarity(const std::vector<Kick>& touches) {
    std::optional<Kick> agreed;
    std::size_t count = 0;
    for (const Kick& touch : touches) {
        if (!touch.is_sign()) continue;
        if (agreed && agreed->outcome != touch.outcome) return std::nullopt;
        ++count;
        if (!agreed || touch.confidence < agreed->confidence) agreed = touch; // the weakest one is told
    }
    return count >= agreeing_touches ? agreed : std::nullopt;
}

} // namespace coilward
