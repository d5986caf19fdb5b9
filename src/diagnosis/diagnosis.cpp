#include "diagnosis/diagnosis.h"

#include "diagnosis/coil_finding.h"

namespace coilward {

Diagnosis diagnose(const Rules& rules, const Examination& examination) {
    Diagnosis diagnosis = diagnosis_of(rules, finding_of(rules, examination));
    diagnosis.id = examination.id;
    return diagnosis;
}

} // namespace coilward
