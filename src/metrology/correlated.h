#pragma once

#include <cstddef>
#include <span>
#include <vector>

/// Quantities that were measured together and therefore vary together (JCGM 100:2008, 5.2).
namespace coilward {

/// Estimates and their covariance, a square matrix row by row.
struct Correlated {
    std::vector<double> values;     ///< each in its own unit
    std::vector<double> covariance; ///< in the product of two units

    /// How many quantities.
    std::size_t size() const { return values.size(); }

    /// Of the i-th and the j-th, from 0.
    double covariance_of(std::size_t i, std::size_t j) const { return covariance[i * size() + j]; }

    /// Square root of the i-th variance, in that quantity's unit.
    double standard_uncertainty(std::size_t i) const;

    /// -1 to 1; 0 where one of the two has no uncertainty.
    double correlation(std::size_t i, std::size_t j) const;
};

/// Independent quantities with their standard uncertainties. Throws std::invalid_argument where there are not
/// as many of these as of values.
Correlated independent(std::span<const double> values, std::span<const double> standard_uncertainties);

/// Means of observations of several quantities, each observation taken of all of them at once, and the
/// covariance of those means (JCGM 100:2008, 5.2.3, equation 17). Throws std::invalid_argument for fewer than
/// two observations, or where one has not as many numbers as the others.
Correlated means_of(std::span<const std::vector<double>> observations);

/// Results that follow from correlated inputs: `sensitivities[k][i]` is the derivative of result k by input i
/// at the estimates. The covariance of the results is C·V·Cᵀ (JCGM 100:2008, equation 16; JCGM
/// 102:2011, 6.2.1.3). Throws std::invalid_argument where the sizes do not fit.
Correlated propagated(const Correlated& inputs, std::vector<double> results,
                      std::span<const std::vector<double>> sensitivities);

} // namespace coilward
