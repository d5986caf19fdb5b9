#pragma once

#include "toml/complaint.h"
#include "toml/measure.h"

#include <optional>
#include <span>
#include <string>

namespace coilward {

/// Why numbers cannot be values of a measure.
struct Objection {
    ComplaintKind kind;
    std::string expected; ///< what should be there, and the unit in which the numbers may have been written
};

/// Nothing where all numbers are finite, positive and within the measure.
std::optional<Objection> objection(std::span<const double> values, const Measure&);

} // namespace coilward
