#pragma once

#include "coil/impedance.h"

#include <cstddef>
#include <span>

namespace coilward {

/// How many ports a coil has.
inline constexpr std::size_t port_count = 4;

/// What impedance_with_gradient() says of each of `ports`, the network solved once for all of them. `seen`
/// takes it in their order, and must be at least as long, which is not checked. Throws as
/// impedance_with_gradient() does.
void impedances_with_gradient(const Coil&, const FaultElement&, double frequency_hz,
                              std::span<const CoilPort> ports, std::span<ImpedanceWithGradient> seen);

} // namespace coilward
