#pragma once

#include <cmath>
#include <utility>

namespace coilward {

/// ln(e^a + e^b).
inline double log_sum(double a, double b) {
    if (a < b) std::swap(a, b);
    return std::isinf(a) ? a : a + std::log1p(std::exp(b - a));
}

} // namespace coilward
