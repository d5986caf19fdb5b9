#pragma once

#include "metrology/normal.h"
#include "units/range.h"

#include <cmath>

namespace coilward {

/// A positive quantity whose logarithm is normally distributed.
struct LogNormal {
    double median = 1.0;    ///< above 0, in the quantity's unit
    double deviation = 1.0; ///< standard deviation of the natural logarithm
};

/// The one whose central 95 % is the range, of which both ends must be above 0 (not checked).
inline LogNormal log_normal(const Range& range) {
    return {std::sqrt(range.low * range.high), std::log(range.high / range.low) / (2.0 * half_width_95)};
}

/// 2.5 % lie below, 2.5 % above.
inline Range central_95(const LogNormal& quantity) {
    const double factor = std::exp(half_width_95 * quantity.deviation);
    return {quantity.median / factor, quantity.median * factor};
}

/// Of two that are independent: the medians' product, the deviations in quadrature.
inline LogNormal product(const LogNormal& a, const LogNormal& b) {
    return {a.median * b.median, std::hypot(a.deviation, b.deviation)};
}

/// Of two that are independent: the medians' ratio, the deviations in quadrature.
inline LogNormal quotient(const LogNormal& a, const LogNormal& b) {
    return {a.median / b.median, std::hypot(a.deviation, b.deviation)};
}

/// How many deviations a number above 0 lies above the median, in the logarithm.
inline double deviations_to(const LogNormal& quantity, double number) {
    return std::log(number / quantity.median) / quantity.deviation;
}

} // namespace coilward
