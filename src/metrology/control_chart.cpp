#include "metrology/control_chart.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace coilward {
namespace {

constexpr std::size_t run_on_one_side = 9;
constexpr std::size_t run_of_a_trend = 6;

double mean_of(std::span<const double> numbers) {
    return std::accumulate(numbers.begin(), numbers.end(), 0.0) / static_cast<double>(numbers.size());
}

int sign_of(double number) {
    return number > 0.0 ? 1 : number < 0.0 ? -1 : 0;
}

/// How long the present run of one sign is; a zero ends it.
class Run {
public:
    std::size_t grown_by(int sign) {
        length_ = sign != 0 && sign == sign_ ? length_ + 1 : sign != 0 ? 1 : 0;
        sign_ = sign;
        return length_;
    }

private:
    int sign_ = 0;
    std::size_t length_ = 0;
};

} // namespace

ControlChart control_chart(std::span<const double> values) {
    if (values.size() < 2) throw std::invalid_argument("a chart needs two values or more");
    if (!std::ranges::all_of(values, [](double value) { return std::isfinite(value); }))
        throw std::invalid_argument("a chart needs finite values");
    ControlChart chart{.values = {values.begin(), values.end()}};
    for (std::size_t point = 1; point < values.size(); ++point)
        chart.moving_ranges.push_back(std::abs(values[point] - values[point - 1]));
    chart.mean = mean_of(values);
    chart.mean_range = mean_of(chart.moving_ranges);
    chart.deviation = chart.mean_range / range_mean_of_two;
    chart.lower_limit = chart.mean - 3.0 * chart.deviation;
    chart.upper_limit = chart.mean + 3.0 * chart.deviation;
    chart.upper_range_limit = (1.0 + 3.0 * range_deviation_of_two / range_mean_of_two) * chart.mean_range;
    return chart;
}

std::vector<DriftSign> drift_signs(const ControlChart& chart) {
    std::vector<DriftSign> signs;
    Run side;
    Run trend;
    for (std::size_t point = 0; point < chart.values.size(); ++point) {
        const double value = chart.values[point];
        if (value < chart.lower_limit || value > chart.upper_limit) signs.push_back({point, 0});
        if (point > 0 && chart.moving_ranges[point - 1] > chart.upper_range_limit)
            signs.push_back({point, 1});
        if (side.grown_by(sign_of(value - chart.mean)) >= run_on_one_side) signs.push_back({point, 2});
        // Six points that rise are five steps.
        if (point > 0 && trend.grown_by(sign_of(value - chart.values[point - 1])) >= run_of_a_trend - 1)
            signs.push_back({point, 3});
    }
    return signs;
}

} // namespace coilward
