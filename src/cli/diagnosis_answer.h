#pragma once

#include "diagnosis/pickup_diagnosis.h"

#include <string>
#include <variant>

namespace coilward {

/// The answer about a coil or about a pickup of several, and how the readings document called itself, as
/// JSON; empty where it has no id.
struct DiagnosisAnswer {
    std::variant<Diagnosis, PickupDiagnosis> diagnosis;
    std::string id;
};

/// Throws CannotDiagnose.
DiagnosisAnswer answer_to(const Rules&, const Examination&);

/// The same for a readings document (JSON). Throws BadDocument or CannotDiagnose.
DiagnosisAnswer answer_to_document(const Rules&, const std::string& text);

/// The id of a readings document that may be broken otherwise, as JSON.
std::string id_of_document(const std::string& text);

std::string answer_in_json(const DiagnosisAnswer&);
std::string answer_as_page(const DiagnosisAnswer&, const Rules&);

} // namespace coilward
