#pragma once

#include "rewind/uncertain.h"
#include "wire/basis.h"
#include "wire/gauge.h"
#include "wire/insulation.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// The wire that is to be wound, as its standard allows it or as it was measured.
struct Spool {
    std::string title;                 ///< "42 AWG (nominal diameter), single build"
    double conductor_diameter_m = 0.0; ///< bare
    Uncertain ohm_per_metre_20;
    Uncertain overall_diameter_m;              ///< over the enamel
    Basis resistance_basis = Basis::published; ///< on what its limits rest
    Basis overall_basis = Basis::published;    ///< likewise
};

/// What was measured of the spool itself, in place of what its standard allows.
struct SpoolMeasured {
    std::optional<Uncertain> ohm_per_metre_20;
    std::optional<Uncertain> overall_diameter_m;
};

/// The spool with what was measured of it, which counts as published.
Spool with_measured(Spool, const SpoolMeasured&);

/// Magnet wire by gauge: what its limits leave open is taken as equally probable anywhere between them.
/// Throws std::invalid_argument where the limits or the build of the gauge are not known.
Spool awg_spool(int awg, AwgDiameter, Build);

/// Enamelled wire of IEC 60317-0-1, likewise; single stands for grade 1, heavy for grade 2. Throws
/// std::invalid_argument where the size is not in the table.
Spool metric_spool(double nominal_diameter_m, Build);

/// The next thicker and the next thinner size, as far as they are known.
std::vector<Spool> next_gauges(int awg, AwgDiameter, Build);

/// Likewise; none where the size itself is not in the table.
std::vector<Spool> next_metric_sizes(double nominal_diameter_m, Build);

/// Gram per metre: copper of 8.89 g/cm³ (IEC 60028) and enamel of about 1.4 g/cm³ (estimate). Throws
/// std::invalid_argument where a diameter is not above 0.
double gram_per_metre(double conductor_diameter_m, double overall_diameter_m);

} // namespace coilward
