#pragma once

#include <utility>

#include <Eigen/Core>

namespace coilward {

/// Cholesky's factors A = L·D·Lᵀ, L with ones on its diagonal, of a small positive definite matrix of fixed
/// size, every loop unrolled: Eigen's own goes through its routines for large matrices from a size of 8, and
/// then takes four times as many instructions (the method: G. H. Golub and C. F. Van Loan, Matrix
/// Computations, 2013, ch. 4.1). Whether A is positive definite shows in the diagonal of D.
template <Eigen::Index size>
class Cholesky {
public:
    /// A matrix of that size.
    using Square = Eigen::Matrix<double, size, size>;
    /// As many numbers.
    using Point = Eigen::Matrix<double, size, 1>;

    /// The lower triangle counts; what is above must be numbers.
    explicit Cholesky(const Square& matrix) : lower_(matrix) { factor(each{}); }

    /// x := L⁻¹·x, of a point or of several side by side.
    template <typename Rows>
    void forward(Rows& x) const {
        forward(x, each{});
    }

    /// x := L⁻ᵀ·x.
    void backward(Point& x) const { backward(x, each{}); }

    /// Of D⁻¹.
    const Point& inverse_diagonal() const { return inverse_; }

private:
    using each = std::make_integer_sequence<int, static_cast<int>(size)>;
    template <int column>
    using below = std::make_integer_sequence<int, static_cast<int>(size) - 1 - column>;

    /// A column from this row on, or from the one before, so that pairs of rows are always the same ones: a
    /// processor waits for what it has just written as other pairs than it reads.
    template <int column, int row>
    auto from() {
        constexpr int first = row - row % 2;
        return lower_.col(column).template segment<size - first>(first);
    }

    template <int... columns>
    void factor(std::integer_sequence<int, columns...>) {
        (eliminate<columns>(below<columns>{}), ...);
    }

    template <int column, int... others>
    void eliminate(std::integer_sequence<int, others...>) {
        inverse_[column] = 1.0 / lower_(column, column);
        (subtract<column, column + 1 + others>(), ...);
        if constexpr (column + 1 < size) from<column, column + 1>() *= inverse_[column];
    }

    template <int column, int other>
    void subtract() {
        from<other, other>() -= (lower_(other, column) * inverse_[column]) * from<column, other>();
    }

    template <typename Rows, int... columns>
    void forward(Rows& x, std::integer_sequence<int, columns...>) const {
        (step_forward<columns>(x, below<columns>{}), ...);
    }

    template <int column, typename Rows, int... others>
    void step_forward(Rows& x, std::integer_sequence<int, others...>) const {
        ((x.row(column + 1 + others) -= lower_(column + 1 + others, column) * x.row(column)), ...);
    }

    template <int... columns>
    void backward(Point& x, std::integer_sequence<int, columns...>) const {
        (step_back<static_cast<int>(size) - 1 - columns>(
             x, std::make_integer_sequence<int, static_cast<int>(size) - 1 - columns>{}),
         ...);
    }

    template <int row, int... others>
    void step_back(Point& x, std::integer_sequence<int, others...>) const {
        ((x[others] -= lower_(row, others) * x[row]), ...);
    }

    Square lower_;  ///< below the diagonal
    Point inverse_; ///< of D's diagonal
};

} // namespace coilward
