#include "coil/linear_system.h"

#include <utility>

namespace coilward {
namespace {

using Scalar = LinearSystem::Scalar;

// std::complex multiplication re-checks for NaN at every call; a network of finite elements does not need it.
Scalar product(Scalar a, Scalar b) {
    return {a.real() * b.real() - a.imag() * b.imag(), a.real() * b.imag() + a.imag() * b.real()};
}

Scalar reciprocal(Scalar a) {
    const double square = a.real() * a.real() + a.imag() * a.imag();
    return {a.real() / square, -a.imag() / square};
}

double weight(Scalar a) {
    return a.real() * a.real() + a.imag() * a.imag();
}

std::size_t pivot_row(const LinearSystem& system, std::size_t column) {
    std::size_t best = column;
    for (std::size_t row = column + 1; row < system.size; ++row)
        if (weight(system.matrix[row][column]) > weight(system.matrix[best][column])) best = row;
    return best;
}

void eliminate_below(LinearSystem& system, std::size_t column) {
    const Scalar inverse_pivot = reciprocal(system.matrix[column][column]);
    for (std::size_t row = column + 1; row < system.size; ++row) {
        if (system.matrix[row][column] == Scalar{}) continue;
        const Scalar factor = product(system.matrix[row][column], inverse_pivot);
        for (std::size_t k = column + 1; k < system.size; ++k)
            system.matrix[row][k] -= product(factor, system.matrix[column][k]);
        system.right_side[row] -= product(factor, system.right_side[column]);
    }
}

void substitute_back(LinearSystem& system) {
    for (std::size_t row = system.size; row-- > 0;) {
        Scalar sum = system.right_side[row];
        for (std::size_t k = row + 1; k < system.size; ++k)
            sum -= product(system.matrix[row][k], system.right_side[k]);
        system.right_side[row] = product(sum, reciprocal(system.matrix[row][row]));
    }
}

} // namespace

void solve(LinearSystem& system) {
    for (std::size_t column = 0; column < system.size; ++column) {
        const std::size_t pivot = pivot_row(system, column);
        std::swap(system.matrix[column], system.matrix[pivot]);
        std::swap(system.right_side[column], system.right_side[pivot]);
        eliminate_below(system, column);
    }
    substitute_back(system);
}

} // namespace coilward
