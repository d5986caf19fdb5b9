#pragma once

#include "history/visit.h"

#include <optional>
#include <stdexcept>
#include <string>

namespace coilward {

/// What is to be another way in a reading; what is absent stays as it was.
struct Correction {
    std::optional<double> value; ///< SI unit of the reading's quantity; then its state is ok
    /// Same unit. Absent: that of the wrong one stays, also beside another value.
    std::optional<double> standard_uncertainty;
    std::optional<std::string> coil; ///< of which coil it really was
    std::string why;                 ///< must say something
};

/// A reading that cannot be corrected so. One line.
struct NoCorrection : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// The reading that takes the place of the wrong one, of no meter, with a fresh id. Throws NoCorrection where
/// nothing would be another way, nobody says why, a polarity is given a number, or the number is not finite.
StoredReading correction_of(const StoredReading& wrong, const Correction&, Moment at);

} // namespace coilward
