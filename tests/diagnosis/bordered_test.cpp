#include "diagnosis/bordered.h"

#include <cmath>

#include <gtest/gtest.h>

// Factors, solutions, volume and variances of a bordered matrix against Eigen's own Cholesky of the whole.

namespace coilward {
namespace {

/// Diagonally dominant, of numbers that nobody chose.
Bordered matrix_with(Eigen::Index severities) {
    Bordered matrix(CoilSquare::Identity(), severities);
    matrix.corner.setIdentity();
    for (int answer = 0; answer < 20; ++answer) {
        BorderedDirection direction;
        for (Eigen::Index k = 0; k < coil_count; ++k)
            direction.coil[k] = std::sin(1.0 + answer * 3.7 + static_cast<double>(k) * 1.3);
        for (std::size_t s = 0; s < static_cast<std::size_t>(severities); ++s)
            direction.severities[static_cast<Eigen::Index>(s)] =
                std::cos(answer * 2.1 + static_cast<double>(s) * 0.9);
        matrix.add_square(0.3 + 0.1 * answer, direction);
    }
    return matrix;
}

class BorderedOf : public testing::TestWithParam<Eigen::Index> {};

TEST_P(BorderedOf, SolvesAsTheWholeMatrix) {
    const Bordered matrix = matrix_with(GetParam());
    const Matrix whole = matrix.whole();
    const Vector b = Vector::LinSpaced(whole.rows(), -1.0, 2.0);
    const Vector expected = whole.llt().solve(b);
    const BorderedCholesky factored(matrix);
    EXPECT_LT((factored.solve(b) - expected).cwiseAbs().maxCoeff(), 1e-12);
    EXPECT_NEAR(factored.quadratic_form(b), b.dot(expected), 1e-12);
    EXPECT_NEAR(factored.half_log_determinant(), half_log_determinant(whole), 1e-12);
}

TEST_P(BorderedOf, GivesTheVariancesOfItsSeverities) {
    const Bordered matrix = matrix_with(GetParam());
    const Matrix whole = matrix.whole();
    const Matrix inverse = whole.llt().solve(Matrix::Identity(whole.rows(), whole.rows()));
    const auto variances = BorderedCholesky(matrix).severity_variances();
    for (Eigen::Index s = 0; s < GetParam(); ++s)
        EXPECT_NEAR(variances[s], inverse(coil_count + s, coil_count + s), 1e-12);
}

TEST_P(BorderedOf, LeavesAPinnedUnknownWhereItIs) {
    const Matrix whole = matrix_with(GetParam()).whole();
    const Vector b = Vector::LinSpaced(whole.rows(), -1.0, 2.0);
    for (Eigen::Index pinned = 0; pinned < whole.rows(); ++pinned) {
        Bordered matrix = matrix_with(GetParam());
        matrix.pin(pinned);
        Vector slope = b;
        slope[pinned] = 0.0;
        const Vector x = BorderedCholesky(matrix).solve(slope);
        // The others are the solution of the system without that row and column.
        const Vector left = whole * x - b;
        for (Eigen::Index k = 0; k < whole.rows(); ++k)
            EXPECT_NEAR(k == pinned ? 0.0 : left[k], 0.0, 1e-12);
        EXPECT_EQ(x[pinned], 0.0);
    }
}

INSTANTIATE_TEST_SUITE_P(SeveralSeverities, BorderedOf, testing::Values(0, 1, 2, 3, 4));

} // namespace
} // namespace coilward
