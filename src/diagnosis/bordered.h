#pragma once

#include "diagnosis/cholesky.h"
#include "diagnosis/hypothesis.h"
#include "diagnosis/linear_algebra.h"

#include <cmath>
#include <limits>
#include <utility>

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

/// A number for each severity; 0 for those that a component lacks.
using SeverityRow = Eigen::Matrix<double, 1, most_border>;

/// A direction in the space of the unknowns.
struct BorderedDirection {
    CoilPoint coil;
    SeverityRow severities = SeverityRow::Zero();
};

/// There is always room for every severity: what a component lacks goes with nothing.
struct Bordered {
    CoilSquare coil;                                                        ///< the lower triangle counts
    Eigen::Matrix<double, coil_count, most_border, Eigen::RowMajor> border; ///< a column a severity
    Eigen::Matrix<double, most_border, most_border> corner; ///< of the severities with each other
    Eigen::Index severity_count = 0;                        ///< 0 to 4

    /// The identity over a coil's unknowns.
    Bordered() : Bordered(CoilSquare::Identity(), 0) {}

    /// Without a border; `corner` is the identity at first.
    Bordered(const CoilSquare& coil_block, Eigen::Index severities)
        : coil(coil_block), severity_count(severities) {
        border.setZero();
        corner.setIdentity();
    }

    /// Adds curvature · direction · directionᵀ.
    void add_square(double curvature, const BorderedDirection& direction) {
        add_to_coil(curvature, direction.coil,
                    std::make_integer_sequence<int, static_cast<int>(coil_count)>{});
        const SeverityRow pull = curvature * direction.severities;
        for (Eigen::Index k = 0; k < coil_count; ++k)
            border.row(k) += direction.coil[k] * pull;
        for (Eigen::Index s = 0; s < most_border; ++s)
            corner.col(s) += direction.severities[s] * pull;
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
    /// Of a positive definite matrix; half_log_determinant() tells whether it is one.
    explicit BorderedCholesky(const Bordered& matrix)
        : severity_count_(matrix.severity_count), coil_(matrix.coil), half_(matrix.border),
          corner_(left_of_corner(matrix.corner)) {}

    /// ½ ln det; NaN where the matrix is not positive definite. The product of up to 13 pivots of an
    /// information stays far within a double's range.
    double half_log_determinant() const {
        const CoilPoint& coil = coil_.inverse_diagonal();
        const auto& corner = corner_.inverse_diagonal();
        if (!(coil.minCoeff() > 0.0 && corner.minCoeff() > 0.0))
            return std::numeric_limits<double>::quiet_NaN();
        return -0.5 * std::log(coil.prod() * corner.prod());
    }

    /// The corner's diagonal of A⁻¹.
    SeverityRow severity_variances() const {
        Eigen::Matrix<double, most_border, most_border, Eigen::RowMajor> unit;
        unit.setIdentity();
        corner_.forward(unit);
        return corner_.inverse_diagonal().transpose() * unit.cwiseAbs2();
    }

    /// bᵀ·A⁻¹·b.
    double quadratic_form(const Vector& b) const {
        Halfway at = halfway(b);
        corner_.forward(at.severities);
        return coil_.inverse_diagonal().dot(at.coil.cwiseAbs2()) +
               corner_.inverse_diagonal().dot(at.severities.cwiseAbs2());
    }

    /// A⁻¹·b.
    Vector solve(const Vector& b) const {
        Halfway at = halfway(b);
        corner_.forward(at.severities);
        at.severities.array() *= corner_.inverse_diagonal().array();
        corner_.backward(at.severities);
        at.coil.noalias() -= half_.lazyProduct(at.severities);
        at.coil.array() *= coil_.inverse_diagonal().array();
        coil_.backward(at.coil);
        Vector x(b.size());
        x.head<coil_count>() = at.coil;
        x.tail(severity_count_) = at.severities.head(severity_count_);
        return x;
    }

private:
    using Corner = Eigen::Matrix<double, most_border, most_border>;

    /// The coil's part of a right-hand side as L⁻¹ leaves it, and what it leaves of the severities' part.
    struct Halfway {
        CoilPoint coil;
        Eigen::Matrix<double, most_border, 1> severities = Eigen::Matrix<double, most_border, 1>::Zero();
    };

    Halfway halfway(const Vector& b) const {
        Halfway at{b.head<coil_count>()};
        at.severities.head(severity_count_) = b.tail(severity_count_);
        coil_.forward(at.coil);
        for (Eigen::Index k = 0; k < coil_count; ++k)
            at.severities -= (coil_.inverse_diagonal()[k] * at.coil[k]) * half_.row(k).transpose();
        return at;
    }

    Corner left_of_corner(Corner corner) {
        coil_.forward(half_);
        for (Eigen::Index k = 0; k < coil_count; ++k) {
            const SeverityRow scaled = coil_.inverse_diagonal()[k] * half_.row(k);
            for (Eigen::Index s = 0; s < most_border; ++s)
                corner.col(s) -= half_(k, s) * scaled;
        }
        return corner;
    }

    Eigen::Index severity_count_;
    Cholesky<coil_count> coil_;
    Eigen::Matrix<double, coil_count, most_border, Eigen::RowMajor> half_; ///< L⁻¹ · border
    Cholesky<most_border> corner_;
};

} // namespace coilward
