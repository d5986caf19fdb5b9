#include "cli/diagnosis_answer.h"

#include "reading/examination_json.h"
#include "report/diagnosis_json.h"
#include "report/verdict_page.h"

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

/// Follows a document no further than to the id of its outermost object.
class SearchForId : public nlohmann::json_sax<nlohmann::json> {
public:
    std::string found; ///< as JSON; empty where there is none

    bool null() override { return !id_is_next_; }

    bool boolean(bool value) override { return go_on_after(value); }

    bool number_integer(number_integer_t value) override { return go_on_after(value); }

    bool number_unsigned(number_unsigned_t value) override { return go_on_after(value); }

    bool number_float(number_float_t value, const string_t&) override { return go_on_after(value); }

    bool string(string_t& value) override { return go_on_after(value); }

    bool binary(binary_t&) override { return true; }

    bool key(string_t& name) override {
        id_is_next_ = depth_ == 1 && name == "id";
        return true;
    }

    bool start_object(std::size_t) override { return enter(); }

    bool end_object() override { return leave(); }

    bool start_array(std::size_t) override { return depth_ > 0 && enter(); }

    bool end_array() override { return leave(); }

    bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override {
        return false;
    }

private:
    template <typename Value>
    bool go_on_after(const Value& value) {
        if (id_is_next_) found = nlohmann::json(value).dump();
        return !id_is_next_ && depth_ > 0;
    }

    bool enter() {
        ++depth_;
        return !id_is_next_; // an id that is no plain value is none
    }

    bool leave() {
        --depth_;
        return true;
    }

    int depth_ = 0;
    bool id_is_next_ = false;
};

} // namespace

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
    SearchForId search;
    nlohmann::json::sax_parse(text, &search);
    return search.found;
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
