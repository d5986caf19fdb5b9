#include "guide/loss_uncertainty.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace coilward {
namespace {

bool is_loss(Quantity quantity) {
    return quantity == Quantity::quality_factor || quantity == Quantity::dissipation_factor;
}

/// Relative error of the impedance; that of L and C is stated √(1 + D²) times as large
/// (metrology/accuracy.h).
std::optional<double> impedance_error(const std::vector<Reading>& readings, const Reading& loss) {
    const double d = loss.quantity == Quantity::dissipation_factor ? *loss.value : 1.0 / *loss.value;
    for (const Reading& other : readings) {
        const bool reactive =
            other.quantity == Quantity::inductance || other.quantity == Quantity::capacitance;
        if (reactive && other.standard_uncertainty && other.value && *other.value != 0.0)
            return *other.standard_uncertainty / std::abs(*other.value) / std::hypot(1.0, d);
    }
    return std::nullopt;
}

} // namespace

void add_loss_uncertainty(std::vector<Reading>& readings) {
    for (Reading& reading : readings) {
        if (!is_loss(reading.quantity) || reading.standard_uncertainty) continue;
        if (reading.state != State::ok || !reading.value || *reading.value == 0.0) continue;
        if (const auto error = impedance_error(readings, reading))
            reading.standard_uncertainty = (1.0 + *reading.value * *reading.value) * *error;
    }
}

} // namespace coilward
