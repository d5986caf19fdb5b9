#pragma once

#include <array>
#include <complex>
#include <cstddef>

namespace coilward {

/// The equations of one small network: at most six unknowns, kept in place so that solving allocates nothing.
struct LinearSystem {
    static constexpr std::size_t capacity = 6;
    using Scalar = std::complex<double>;

    std::size_t size = 0;
    std::array<std::array<Scalar, capacity>, capacity> matrix{};
    std::array<Scalar, capacity> right_side{};
};

/// Solves by Gaussian elimination with partial pivoting; the solution replaces `right_side`.
/// A singular network (a terminal that nothing connects) gives infinities or NaN, as the physics does.
void solve(LinearSystem&);

} // namespace coilward
