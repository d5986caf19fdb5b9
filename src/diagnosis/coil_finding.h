#pragma once

#include "diagnosis/diagnosis.h"
#include "diagnosis/own_history.h"
#include "diagnosis/posterior.h"

#include <string>
#include <vector>

namespace coilward {

/// All that was worked out about one coil.
struct CoilFinding {
    const CoilModel* model = nullptr;
    std::vector<Reading> readings;
    OwnHistory history;
    Evidence evidence;
    Posterior posterior;
};

/// Weighs all faults against one coil's readings. Throws CannotDiagnose where the coil model is unknown.
CoilFinding finding_of(const Rules&, const std::string& coil_model, const std::vector<Reading>&,
                       const std::vector<EarlierExamination>&);

/// The finding in words and numbers for a person.
Diagnosis diagnosis_of(const Rules&, const CoilFinding&);

} // namespace coilward
