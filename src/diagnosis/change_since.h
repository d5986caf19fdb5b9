#pragma once

#include "diagnosis/coil_temperature.h"
#include "diagnosis/diagnosis.h"
#include "diagnosis/own_history.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// A reading, and how warm the coil was when it was taken.
struct ReadingAt {
    const Reading& reading;
    CoilTemperature temperature; ///< then
};

/// How a reading moved since an earlier examination of the same coil.
struct Change {
    std::string at;           ///< of the earlier examination, RFC 3339
    double then = 0.0;        ///< what was read then, in the quantity's SI unit like all that follows
    double then_at_now = 0.0; ///< the same at today's temperature
    double now = 0.0;         ///< what is read now
    double standard_uncertainty = 0.0; ///< of the change: of both readings and both temperatures

    /// The change in its standard uncertainties.
    double deviations() const { return (now - then_at_now) / standard_uncertainty; }
};

/// The change of a reading since a visit on which the same was asked; nothing where either has no number.
/// The earlier one is brought to today's temperature by how a healthy coil's reading moves with it; all
/// uncertainties are combined in quadrature (JCGM 100:2008, 5.1.2), and each
/// temperature has the uncertainty of its thermometer and of the coil beside it. Nothing for a temperature,
/// or for what no circuit predicts.
std::optional<Change> change_since(const HealthyVisit&, const ReadingAt& now, const CoilPrior&, const Rules&);

/// Adds to each reason what its reading showed when the coil was last healthy, and whether the change is
/// beyond the uncertainty of both.
void add_changes(std::vector<Reason>&, const std::vector<Reading>&, const CoilTemperature& now,
                 const OwnHistory&, const Rules&);

} // namespace coilward
