#pragma once

#include "wire/basis.h"

#include <optional>
#include <span>

namespace coilward {

/// A size of enamelled round copper wire by IEC 60317-0-1. Diameters in metre.
struct MetricWire {
    /// Of the bare conductor.
    double nominal_diameter_m = 0.0;
    double grade1_minimum_m = 0.0; ///< over the enamel, thin build
    double grade1_maximum_m = 0.0;
    double grade2_minimum_m = 0.0; ///< over the enamel, thick build
    double grade2_maximum_m = 0.0;
};

/// The sizes known here, 0.030 to 0.080 mm, thinnest first. Source: a wire maker's published table of
/// enamelled round copper wire, dimensions by IEC 60317-0-1.
std::span<const MetricWire> metric_wires();

/// The size of a nominal diameter, within 0.1 µm. Nothing where it is not in the table.
std::optional<MetricWire> metric_wire(double nominal_diameter_m);

/// Resistance at 20 °C, ohm per metre: nominal with 58.5 m/(ohm mm²); limits nominal ± 10 % to 0.032 mm,
/// ± 9.7 % to 0.045 mm, ± 9 % to 0.056 mm, ± 8 % to 0.063 mm, and above that with 59 m/(ohm mm²) and 3 µm
/// more diameter, 58 m/(ohm mm²) and 3 µm less. The rules were recovered from the published limits and
/// reproduce them.
WireLimits metric_resistance_limits_ohm_per_m(const MetricWire&);

} // namespace coilward
