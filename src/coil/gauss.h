#pragma once

#include <array>
#include <cstddef>

/// Gauss-Legendre quadrature. Abscissae and weights: Abramowitz & Stegun, table 25.4.
namespace coilward {

/// A place from -1 to 1 and its weight.
struct GaussNode {
    double place;
    double weight;
};

/// Eight of them: exact for polynomials up to the fifteenth degree.
inline constexpr std::array<GaussNode, 8> gauss_nodes{{{-0.9602898564975363, 0.1012285362903763},
                                                       {-0.7966664774136267, 0.2223810344533745},
                                                       {-0.5255324099163290, 0.3137066458778873},
                                                       {-0.1834346424956498, 0.3626837833783620},
                                                       {0.1834346424956498, 0.3626837833783620},
                                                       {0.5255324099163290, 0.3137066458778873},
                                                       {0.7966664774136267, 0.2223810344533745},
                                                       {0.9602898564975363, 0.1012285362903763}}};

/// ∫ f over [from, to], by the eight nodes. No error is estimated: f must be smooth there.
template <typename Function>
double integral(double from, double to, const Function& f) {
    const double half = (to - from) / 2.0;
    double sum = 0.0;
    for (const auto& [place, weight] : gauss_nodes)
        sum += weight * f(from + half * (1.0 + place));
    return half * sum;
}

/// The same over adjoining panels, from each of `ends` to the next.
template <typename Function, std::size_t count>
double integral_over_panels(const std::array<double, count>& ends, const Function& f) {
    double sum = 0.0;
    for (std::size_t k = 1; k < count; ++k)
        sum += integral(ends[k - 1], ends[k], f);
    return sum;
}

} // namespace coilward
