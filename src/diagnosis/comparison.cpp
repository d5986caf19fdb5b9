#include "diagnosis/comparison.h"

#include "diagnosis/evidence.h"
#include "diagnosis/prediction.h"
#include "metrology/normal.h"

#include <cmath>

#include <Eigen/Cholesky>

namespace coilward {
namespace {

/// Standard deviation of a prediction over the healthy population at a known temperature.
double spread_of(const Prediction& prediction, const CoilPrior& prior) {
    Vector slope(coil_unknown_count);
    for (std::size_t k = 0; k < coil_unknown_count; ++k)
        slope[static_cast<Eigen::Index>(k)] = prediction.slope[k];
    slope[static_cast<Eigen::Index>(Unknown::temperature)] = 0.0;
    return std::sqrt(slope.dot(prior.precision.llt().solve(slope)));
}

std::optional<Range> expected_at(const Reading& reading, const CoilPrior& prior, const Values& values) {
    const auto prediction = predict(reading, Primitive::none, values);
    if (!prediction) return std::nullopt;
    return central_95(prediction->value, spread_of(*prediction, prior));
}

Values middle_at(double temperature_c, const CoilPrior& prior) {
    Values values = prior.mean;
    at(values, Unknown::temperature) = temperature_c;
    return values;
}

bool is_compared(const Reading& reading) {
    return reading.value && is_measurable(reading) &&
           (reading.state == State::ok || reading.state == State::unstable) &&
           reading.quantity != Quantity::temperature && reading.quantity != Quantity::dc_voltage;
}

} // namespace

Range central_95(double value, double deviation) {
    if (value > 0.0) {
        const double factor = std::exp(half_width_95 * deviation / value);
        return {value / factor, value * factor};
    }
    return {value - half_width_95 * deviation, value + half_width_95 * deviation};
}

std::optional<Range> expected_of(const Reading& reading, const CoilPrior& prior, double temperature_c) {
    return expected_at(reading, prior, middle_at(temperature_c, prior));
}

Comparison comparison_with(const Reading& reading, Range expected, const Rules& rules) {
    Comparison comparison{.reading = reading, .measured = *reading.value, .expected = expected};
    comparison.standard_uncertainty = uncertainty_of(reading, rules);
    comparison.probability_within =
        probability_within(comparison.measured, comparison.standard_uncertainty, expected.low, expected.high);
    comparison.standing =
        standing(comparison.measured, comparison.standard_uncertainty, expected.low, expected.high);
    return comparison;
}

std::vector<Comparison> comparisons_of(const std::vector<Reading>& readings, const CoilPrior& prior,
                                       double temperature_c, const Rules& rules) {
    const Values values = middle_at(temperature_c, prior);
    std::vector<Comparison> comparisons;
    for (const Reading& reading : readings) {
        if (!is_compared(reading)) continue;
        if (const auto expected = expected_at(reading, prior, values))
            comparisons.push_back(comparison_with(reading, *expected, rules));
    }
    return comparisons;
}

} // namespace coilward
