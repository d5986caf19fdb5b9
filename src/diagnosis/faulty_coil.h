#pragma once

#include "diagnosis/unknown.h"
#include "rules/rules.h"

#include <map>
#include <string>

namespace coilward {

/// The severities of a fault by name, in SI units, as they stand in its file.
using Severities = std::map<std::string, double>;

/// A coil in the middle of what healthy coils of this model measure, with that fault: severities that are not
/// given are in the middle of the fault's own. Throws std::invalid_argument where a severity is none of this
/// fault's, is impossible, or where the fault has no circuit. The temperature, degC, is not checked.
CircuitUnderTest faulty_coil(const Rules&, const CoilModel&, const Fault&, const Severities&,
                             double temperature_c);

} // namespace coilward
