#pragma once

#include "diagnosis/pickup_diagnosis.h"

#include <string>
#include <variant>

namespace coilward {

/// The answer about a coil or about a pickup of several, and how the readings document called itself, as
/// JSON; empty where it has no id.
struct DiagnosisAnswer {
    std::variant<Diagnosis, PickupDiagnosis> diagnosis;
    std::string id; ///< as JSON
};

/// The diagnosis of a coil or, where the examination names a pickup type, of a pickup. Throws CannotDiagnose.
DiagnosisAnswer answer_to(const Rules&, const Examination&);

/// The same for a readings document (JSON). Throws BadDocument or CannotDiagnose.
DiagnosisAnswer answer_to_document(const Rules&, const std::string& text);

/// The id of a readings document that may be broken otherwise, as JSON; empty where it has none that can be
/// told.
std::string id_of_document(const std::string& text);

/// The diagnosis document (docs/formats.md), on one line.
std::string answer_in_json(const DiagnosisAnswer&);

/// For a terminal (report/verdict_page.h).
std::string answer_as_page(const DiagnosisAnswer&, const Rules&);

} // namespace coilward
