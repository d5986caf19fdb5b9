#pragma once

#include "diagnosis/diagnosis.h"
#include "diagnosis/own_history.h"
#include "diagnosis/posterior.h"
#include "diagnosis/response.h"
#include "reading/examination.h"

#include <string>
#include <vector>

namespace coilward {

/// All that was worked out about one coil.
struct CoilFinding {
    const CoilModel* model = nullptr; ///< as named; never nullptr once found
    std::vector<Reading> readings;    ///< all of them
    ReadingsByUse by_use;
    OwnHistory history;  ///< with the prior that follows from it
    Evidence evidence;   ///< of the readings at rest
    Posterior posterior; ///< after all readings, the handled ones too
};

/// Weighs all faults against the readings of an examination of one coil. What is expected of the coil comes
/// from its model, then from coils made alike, then from its own past. Throws CannotDiagnose where a coil
/// model is unknown.
CoilFinding finding_of(const Rules&, const Examination& of_one_coil);

/// The finding in words and numbers for a person, without an id. The rules hold at least one fault.
/// Throws std::invalid_argument as diagnose() does.
Diagnosis diagnosis_of(const Rules&, const CoilFinding&);

} // namespace coilward
