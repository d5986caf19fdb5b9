#pragma once

#include "diagnosis/cholesky.h"
#include "diagnosis/hypothesis.h"
#include "diagnosis/linear_algebra.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

/// Symmetric matrices over the unknowns of a component: the coil's block, which every component has, in code
/// of a fixed size, and a border of one column a severity, of which there are from none to four.
namespace coilward {

/// How many unknowns a coil has, and how many severities a component has at most.
inline constexpr auto coil_count = static_cast<Eigen::Index>(coil_unknown_count);
inline constexpr auto most_border = static_cast<Eigen::Index>(Component::most_severities);

/// One number for each of the coil's unknowns, in their order.
using CoilPoint = Eigen::Matrix<double, coil_count, 1>;

/// One for each pair of them.
using CoilSquare = Eigen::Matrix<double, coil_count, coil_count>;

/// A direction in the space of the unknowns.
struct BorderedDirection {
    CoilPoint coil;
    std::array<double, Component::most_severities> severities{}; ///< the first severity_count count
};

/// Of both square parts the lower triangle counts.
struct Bordered {
    CoilSquare coil;
    Eigen::Matrix<double, coil_count, most_border> border;  ///< a column a severity
    Eigen::Matrix<double, most_border, most_border> corner; ///< of the severities with each other
    Eigen::Index severity_count = 0;                        ///< 0 to 4

    /// `corner` and `border` are 0 at first.
    Bordered(const CoilSquare& coil_block, Eigen::Index severities)
        : coil(coil_block), severity_count(severities) {
        border.setZero();
        corner.setZero();
    }

    /// Of a whole matrix over a coil's unknowns and some severities.
    explicit Bordered(const Matrix& matrix)
        : Bordered(matrix.topLeftCorner<coil_count, coil_count>(), matrix.rows() - coil_count) {
        border.leftCols(severity_count) = matrix.topRightCorner(coil_count, severity_count);
        corner.topLeftCorner(severity_count, severity_count) =
            matrix.bottomRightCorner(severity_count, severity_count);
    }

    /// Adds curvature · direction · directionᵀ.
    void add_square(double curvature, const BorderedDirection& direction) {
        add_to_coil(curvature, direction.coil,
                    std::make_integer_sequence<int, static_cast<int>(coil_count)>{});
        for (Eigen::Index s = 0; s < severity_count; ++s) {
            const double pull = curvature * direction.severities[static_cast<std::size_t>(s)];
            border.col(s) += pull * direction.coil;
            for (Eigen::Index t = 0; t <= s; ++t)
                corner(s, t) += pull * direction.severities[static_cast<std::size_t>(t)];
        }
    }

    /// Takes unknown k out of play: it goes with no other, and a slope of 0 leaves it where it is.
    void pin(Eigen::Index k) {
        if (k < coil_count) {
            coil.row(k).setZero();
            coil.col(k).setZero();
            border.row(k).setZero();
            coil(k, k) = 1.0;
        } else {
            const Eigen::Index s = k - coil_count;
            border.col(s).setZero();
            corner.row(s).setZero();
            corner.col(s).setZero();
            corner(s, s) = 1.0;
        }
    }

    /// The same as one matrix, both triangles.
    Matrix whole() const {
        const Eigen::Index size = coil_count + severity_count;
        Matrix matrix(size, size);
        matrix.topLeftCorner(coil_count, coil_count) = coil;
        matrix.bottomLeftCorner(severity_count, coil_count) = border.leftCols(severity_count).transpose();
        matrix.bottomRightCorner(severity_count, severity_count) =
            corner.topLeftCorner(severity_count, severity_count);
        return matrix.selfadjointView<Eigen::Lower>();
    }

private:
    template <int... columns>
    void add_to_coil(double curvature, const CoilPoint& direction, std::integer_sequence<int, columns...>) {
        ((coil.col(columns).template tail<coil_count - columns>() +=
          curvature * direction[columns] * direction.template tail<coil_count - columns>()),
         ...);
    }
};

/// Cholesky's factors of a bordered matrix: those of the coil's block, and of what the border leaves of the
/// corner (its Schur complement).
class BorderedCholesky {
public:
    /// Of a positive definite matrix, which is not checked: of another the results are no numbers.
    explicit BorderedCholesky(const Bordered& matrix)
        : severity_count_(matrix.severity_count), coil_(matrix.coil), left_(matrix.corner) {
        for (Eigen::Index s = 0; s < severity_count_; ++s) {
            CoilPoint column = matrix.border.col(s);
            coil_.forward(column);
            half_.col(s) = column;
            for (Eigen::Index t = 0; t <= s; ++t)
                left_(s, t) -= half_.col(s).dot(half_.col(t));
        }
        for (Eigen::Index c = 0; c < severity_count_; ++c) {
            inverse_[c] = 1.0 / std::sqrt(left_(c, c));
            for (Eigen::Index r = c + 1; r < severity_count_; ++r)
                left_(r, c) *= inverse_[c];
            for (Eigen::Index r = c + 1; r < severity_count_; ++r)
                for (Eigen::Index k = c + 1; k <= r; ++k)
                    left_(r, k) -= left_(r, c) * left_(k, c);
        }
    }

    /// ½ ln det. The product of up to 13 roots of an information stays far within a double's range.
    double half_log_determinant() const {
        double product = coil_.inverse_diagonal().prod();
        for (Eigen::Index s = 0; s < severity_count_; ++s)
            product *= inverse_[s];
        return -std::log(product);
    }

    /// The corner's diagonal of A⁻¹.
    std::array<double, Component::most_severities> severity_variances() const {
        std::array<double, Component::most_severities> variances{};
        for (Eigen::Index c = 0; c < severity_count_; ++c) {
            Eigen::Matrix<double, most_border, 1> column; // of L⁻¹, from its diagonal down
            for (Eigen::Index r = c; r < severity_count_; ++r) {
                double value = r == c ? 1.0 : 0.0;
                for (Eigen::Index k = c; k < r; ++k)
                    value -= left_(r, k) * column[k];
                column[r] = value * inverse_[r];
                variances[static_cast<std::size_t>(c)] += column[r] * column[r];
            }
        }
        return variances;
    }

    /// A⁻¹·b.
    Vector solve(const Vector& b) const {
        Vector x = b;
        CoilPoint coil = b.head<coil_count>();
        coil_.forward(coil);
        for (Eigen::Index s = 0; s < severity_count_; ++s) {
            double& value = x[coil_count + s];
            value -= half_.col(s).dot(coil);
            for (Eigen::Index t = 0; t < s; ++t)
                value -= left_(s, t) * x[coil_count + t];
            value *= inverse_[s];
        }
        for (Eigen::Index s = severity_count_ - 1; s >= 0; --s) {
            double& value = x[coil_count + s];
            for (Eigen::Index t = s + 1; t < severity_count_; ++t)
                value -= left_(t, s) * x[coil_count + t];
            value *= inverse_[s];
            coil -= value * half_.col(s);
        }
        coil_.backward(coil);
        x.head<coil_count>() = coil;
        return x;
    }

private:
    Eigen::Index severity_count_;
    Cholesky<coil_count> coil_;
    Eigen::Matrix<double, coil_count, most_border> half_;  ///< L⁻¹ · border
    Eigen::Matrix<double, most_border, most_border> left_; ///< of the Schur complement, below the diagonal
    Eigen::Matrix<double, most_border, 1> inverse_;        ///< of its diagonal
};

} // namespace coilward
