#include "metrology/correlated.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace coilward {

double Correlated::standard_uncertainty(std::size_t i) const {
    return std::sqrt(covariance_of(i, i));
}

double Correlated::correlation(std::size_t i, std::size_t j) const {
    const double product = standard_uncertainty(i) * standard_uncertainty(j);
    return product > 0.0 ? covariance_of(i, j) / product : 0.0;
}

Correlated independent(std::span<const double> values, std::span<const double> standard_uncertainties) {
    if (values.size() != standard_uncertainties.size())
        throw std::invalid_argument("every value needs one standard uncertainty");
    Correlated all{{values.begin(), values.end()}, std::vector<double>(values.size() * values.size())};
    for (std::size_t i = 0; i < values.size(); ++i)
        all.covariance[i * values.size() + i] = standard_uncertainties[i] * standard_uncertainties[i];
    return all;
}

Correlated means_of(std::span<const std::vector<double>> observations) {
    if (observations.size() < 2) throw std::invalid_argument("a scatter needs two observations or more");
    const std::size_t size = observations.front().size();
    const auto count = static_cast<double>(observations.size());
    if (std::ranges::any_of(observations, [&](const auto& each) { return each.size() != size; }))
        throw std::invalid_argument("every observation needs as many numbers as the others");
    Correlated means{std::vector<double>(size), std::vector<double>(size * size)};
    for (const auto& observation : observations)
        for (std::size_t i = 0; i < size; ++i)
            means.values[i] += observation[i] / count;
    for (const auto& observation : observations)
        for (std::size_t i = 0; i < size; ++i)
            for (std::size_t j = 0; j < size; ++j)
                means.covariance[i * size + j] += (observation[i] - means.values[i]) *
                                                  (observation[j] - means.values[j]) /
                                                  (count * (count - 1.0));
    return means;
}

Correlated propagated(const Correlated& inputs, std::vector<double> results,
                      std::span<const std::vector<double>> sensitivities) {
    const std::size_t size = results.size();
    if (sensitivities.size() != size ||
        std::ranges::any_of(sensitivities, [&](const auto& row) { return row.size() != inputs.size(); }))
        throw std::invalid_argument("every result needs one sensitivity to each input");
    Correlated all{std::move(results), std::vector<double>(size * size)};
    for (std::size_t k = 0; k < size; ++k)
        for (std::size_t l = 0; l < size; ++l)
            for (std::size_t i = 0; i < inputs.size(); ++i)
                for (std::size_t j = 0; j < inputs.size(); ++j)
                    all.covariance[k * size + l] +=
                        sensitivities[k][i] * inputs.covariance_of(i, j) * sensitivities[l][j];
    return all;
}

} // namespace coilward
