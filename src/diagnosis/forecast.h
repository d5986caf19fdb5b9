#pragma once

#include "rules/rules.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace coilward {

/// What one explanation expects a reading to show.
struct Forecast {
    std::size_t fault = 0; ///< whose explanation it is
    double weight = 0.0;
    double value = 0.0;
    double deviation = 1.0; ///< of what is not known of the coil and, as read, of the meter
};

/// The forecast of what a bench meter shows of it: its uncertainty is added, and past the end of its range
/// every value looks the same.
Forecast as_read(const Forecast&, const BenchReading&);

/// A fault that expects anything: how much weight it has.
struct AnythingGoes {
    std::size_t fault = 0;
    double weight = 0.0;
};

/// Mutual information between the fault and the reading, in bits: E[ln p(y | fault) − ln p(y)].
double gain_bits(const std::vector<Forecast>&, const std::optional<AnythingGoes>&);

} // namespace coilward
