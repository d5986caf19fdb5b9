#pragma once

#include "bench/simulated_meter.h"
#include "coil/impedance.h"

#include <atomic>
#include <complex>
#include <memory>

namespace coilward {

/// What one meter adds to the truth.
struct MeterError {
    std::complex<double> gain{1.0, 0.0}; ///< of size and, as its imaginary part, of angle
    double noise = 0.0;                  ///< standard deviation, relative
    double highest_ohm = 0.0;            ///< beyond it the meter shows over-range
};

/// A multimeter well inside the specifications of such meters.
inline constexpr MeterError simulated_multimeter{.gain = {1.0002, 0.0}, .noise = 2e-5, .highest_ohm = 1.2e8};

/// An LCR meter, likewise, at every frequency.
inline constexpr MeterError simulated_lcr_meter{.gain = {0.9997, 2e-4}, .noise = 5e-5, .highest_ohm = 2e8};

/// The exact impedance of a coil with its fault where the probes are, as that meter sees it. A thermometer
/// sees the coil's temperature, a voltmeter nothing.
SimulatedCoil coil_seen_by(const MeterError&, const Coil&, const FaultElement&,
                           std::shared_ptr<const std::atomic<CoilPort>> probes);

} // namespace coilward
