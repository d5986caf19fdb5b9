#include "cli/diagnosis_answer.h"

#include "reading/examination_json.h"
#include "report/diagnosis_json.h"
#include "report/verdict_page.h"

#include <nlohmann/json.hpp>

namespace coilward {

DiagnosisAnswer answer_to(const Rules& rules, const Examination& examination) {
    if (examination.pickup_type.empty()) return {diagnose(rules, examination), ""};
    return {diagnose_pickup(rules, examination), ""};
}

DiagnosisAnswer answer_to_document(const Rules& rules, const std::string& text) {
    DiagnosisAnswer answer = answer_to(rules, examination_from_json(text));
    answer.id = id_of_document(text);
    return answer;
}

std::string id_of_document(const std::string& text) {
    const auto json = nlohmann::json::parse(text, nullptr, false);
    const bool has_one = json.is_object() && json.contains("id") && json["id"].is_primitive();
    return has_one && !json["id"].is_null() ? json["id"].dump() : "";
}

std::string answer_in_json(const DiagnosisAnswer& answer) {
    return std::visit([&](const auto& diagnosis) { return diagnosis_to_json(diagnosis, answer.id); },
                      answer.diagnosis);
}

std::string answer_as_page(const DiagnosisAnswer& answer, const Rules& rules) {
    return std::visit([&](const auto& diagnosis) { return verdict_page(diagnosis, rules); },
                      answer.diagnosis);
}

} // namespace coilward
