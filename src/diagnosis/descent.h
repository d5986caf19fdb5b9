#pragma once

#include <cmath>
#include <utility>

/// What searches for a most probable point share, whatever their size.
namespace coilward {

/// −ln(posterior) at a point, with its derivatives.
template <typename Vector, typename Matrix>
struct Objective {
    double cost = 0.0;
    Vector gradient;    ///< of the cost, in the measures of the unknowns
    Matrix information; ///< second derivatives, without those of the predictions (Gauss-Newton); only the
                        ///< lower triangle counts
};

/// Takes the step, shortened until it lowers the cost; false where even a short one does not. `Search` has
/// `objective(point)` and `within_bounds(point)`.
template <typename Search, typename Vector, typename Matrix>
bool descend(const Search& search, Vector& x, Objective<Vector, Matrix>& here, const Vector& move) {
    constexpr int most_parts = 5; // the last is 2.6 % of the step
    double part = 1.0;
    for (int n = 0; n < most_parts; ++n, part *= 0.4) {
        const Vector there_x = search.within_bounds(x + part * move);
        auto there = search.objective(there_x);
        if (std::isfinite(there.cost) && there.cost < here.cost) {
            x = there_x;
            here = std::move(there);
            return true;
        }
    }
    return false;
}

} // namespace coilward
