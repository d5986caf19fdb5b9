#pragma once

#include "coil/impedance.h"
#include "diagnosis/unknown.h"

#include <array>
#include <optional>

namespace coilward {

/// A resonance and the derivative of ln(frequency) by each parameter, per unit of that parameter's measure.
struct Resonance {
    double frequency_hz = 0.0;
    std::array<double, static_cast<std::size_t>(Parameter::count)> log_slope{};
};

/// The frequency at which the magnitude of the impedance across the leads is greatest, searched from
/// `near_hz` upwards or downwards. Nothing where there is no peak between 200 Hz and 200 kHz.
/// By strides of 12 %, then Brent's method.
std::optional<Resonance> resonance_near(const CircuitUnderTest&, double near_hz);

} // namespace coilward
