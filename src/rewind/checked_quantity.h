#pragma once

#include "rewind/confirmation.h"

namespace coilward {

/// The last reading of the coil that answers a requirement; null where there is none. A reading without
/// uncertainty or beyond its range answers it too, and is then said to be of no use.
const StoredReading* answer_to(const Requirement&, const std::vector<StoredReading>&,
                               const std::string& coil);

/// Of a reading that has a value: the standard uncertainty that its meter said, or that of an ordinary bench
/// meter; nothing where the rules tell of none. In the unit of the reading.
std::optional<double> uncertainty_of(const Reading&, const std::vector<BenchReading>&);

/// One requirement, judged by the reading that answers it, at 20 °C. Throws std::invalid_argument as
/// conformity() does.
Checked check(const Requirement&, const std::vector<StoredReading>&, const std::string& coil,
              Uncertain temperature_c, const ConfirmationRule&);

} // namespace coilward
