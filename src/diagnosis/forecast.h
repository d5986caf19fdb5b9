#pragma once

#include "rules/rules.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace coilward {

/// What one explanation expects a reading to show.
struct Forecast {
    std::size_t fault = 0;  ///< whose explanation it is
    double weight = 0.0;    ///< its share of all probability
    double value = 0.0;     ///< in the reading's SI unit, as the next
    double deviation = 1.0; ///< of what is not known of the coil and, as read, of the meter
};

/// The forecast of what a bench meter shows of it: its uncertainty is added, and past the end of its range
/// every value looks the same.
Forecast as_read(const Forecast&, const BenchReading&);

/// A fault that expects anything: how much weight it has.
struct AnythingGoes {
    std::size_t fault = 0; ///< whose explanation it is
    double weight = 0.0;   ///< its probability
};

/// Mutual information between the fault and the reading, in bits: E[ln p(y | fault) − ln p(y)] / ln 2, by
/// five-point Gauss-Hermite quadrature (Abramowitz and Stegun, table 25.10). 0 where there is no forecast.
double gain_bits(std::vector<Forecast>, const std::optional<AnythingGoes>&);

} // namespace coilward
