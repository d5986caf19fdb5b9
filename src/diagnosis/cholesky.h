#pragma once

#include <cmath>
#include <utility>

#include <Eigen/Core>

namespace coilward {

/// Cholesky's factors of a small positive definite matrix of fixed size, every loop unrolled: Eigen's own
/// goes through its routines for large matrices from a size of 8, and then takes four times as many
/// instructions.
template <Eigen::Index size>
class Cholesky {
public:
    /// A matrix of that size.
    using Square = Eigen::Matrix<double, size, size>;
    /// As many numbers.
    using Point = Eigen::Matrix<double, size, 1>;

    /// Of A = L·Lᵀ, of which the lower triangle counts. That A is positive definite is not checked.
    explicit Cholesky(const Square& matrix) : lower_(matrix) {
        factor(std::make_integer_sequence<int, static_cast<int>(size)>{});
    }

    /// x := L⁻¹·x.
    void forward(Point& x) const { forward(x, std::make_integer_sequence<int, static_cast<int>(size)>{}); }

    /// x := L⁻ᵀ·x.
    void backward(Point& x) const { backward(x, std::make_integer_sequence<int, static_cast<int>(size)>{}); }

    /// One over each element of L's diagonal.
    const Point& inverse_diagonal() const { return inverse_; }

private:
    template <int... columns>
    void factor(std::integer_sequence<int, columns...>) {
        (eliminate<columns>(std::make_integer_sequence<int, static_cast<int>(size) - 1 - columns>{}), ...);
    }

    template <int column, int... others>
    void eliminate(std::integer_sequence<int, others...>) {
        inverse_[column] = 1.0 / std::sqrt(lower_(column, column));
        below<column>() *= inverse_[column];
        (subtract<column, column + 1 + others>(), ...);
    }

    template <int column, int other>
    void subtract() {
        lower_.col(other).template tail<size - other>() -=
            lower_(other, column) * lower_.col(column).template tail<size - other>();
    }

    /// A column without its diagonal element and what is above.
    template <int column>
    auto below() {
        return lower_.col(column).template tail<size - 1 - column>();
    }

    template <int column>
    auto below() const {
        return lower_.col(column).template tail<size - 1 - column>();
    }

    template <int... columns>
    void forward(Point& x, std::integer_sequence<int, columns...>) const {
        ((x[columns] *= inverse_[columns],
          x.template tail<size - 1 - columns>() -= x[columns] * below<columns>()),
         ...);
    }

    template <int... columns>
    void backward(Point& x, std::integer_sequence<int, columns...>) const {
        (step_back<static_cast<int>(size) - 1 - columns>(x), ...);
    }

    template <int column>
    void step_back(Point& x) const {
        if constexpr (column + 1 < size)
            x[column] -= below<column>().dot(x.template tail<size - 1 - column>());
        x[column] *= inverse_[column];
    }

    Square lower_;  ///< below the diagonal
    Point inverse_; ///< of the diagonal
};

} // namespace coilward
