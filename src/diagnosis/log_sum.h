#pragma once

#include <cmath>
#include <limits>
#include <utility>

namespace coilward {

/// The logarithm of no chance at all.
inline constexpr double never = -std::numeric_limits<double>::infinity();

/// ln(e^a + e^b); of minus infinity on both sides minus infinity.
inline double log_sum(double a, double b) {
    if (a < b) std::swap(a, b);
    return std::isinf(a) ? a : a + std::log1p(std::exp(b - a));
}

/// The logarithm of a product of positive numbers, by one logarithm for many of them. Each may be from 1e-180
/// to 1e180.
class LogOfProduct {
public:
    /// Above 0.
    void multiply(double factor) {
        product_ *= factor;
        if (product_ < 1e-120 || product_ > 1e120) fold();
    }

    /// ln of the product so far; 0 of none.
    double value() const { return folded_ + std::log(product_); }

private:
    void fold() {
        folded_ += std::log(product_);
        product_ = 1.0;
    }

    double product_ = 1.0;
    double folded_ = 0.0;
};

} // namespace coilward
