#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>

/// Vectors and matrices over a hypothesis' unknowns. Their greatest size is known, so none allocates.
namespace coilward {

inline constexpr int most_unknowns = 16;

/// Without allocation: one coil has at most so many unknowns.
using Vector = Eigen::Matrix<double, Eigen::Dynamic, 1, Eigen::ColMajor, most_unknowns, 1>;

/// Likewise, square.
using Matrix =
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::ColMajor, most_unknowns, most_unknowns>;

/// By Cholesky's factors; that the matrix is positive definite is not checked.
inline Matrix inverse(const Matrix& positive_definite) {
    const auto size = positive_definite.rows();
    return positive_definite.llt().solve(Matrix::Identity(size, size));
}

/// ½ ln det of a positive definite matrix, by Cholesky's factors; not checked either.
template <typename Square>
double half_log_determinant(const Square& matrix) {
    return matrix.llt().matrixLLT().diagonal().array().log().sum();
}

} // namespace coilward
