#include "reading/json_line.h"
#include "report/comparison_page.h"

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

Json form_of(const ComparedCoil& coil) {
    Json form{{"title", coil.title},
              {"pickup", text_of(coil.pickup.id)},
              {"visit", text_of(coil.visit.id)},
              {"at", text_of(coil.visit.at)},
              {"stage", coil.visit.stage}};
    if (!coil.coil.empty()) form["coil"] = coil.coil;
    return form;
}

Json form_of(const ComparedValue& value) {
    Json form = Json::object();
    if (value.value) {
        form["value"] = value.value->value;
        form["standard_uncertainty"] = value.value->standard_uncertainty;
    }
    form["says"] = value.says;
    return form;
}

Json form_of(const ComparedPair& pair) {
    return {{"first", pair.first},
            {"second", pair.second},
            {"difference", pair.difference.value},
            {"standard_uncertainty", pair.difference.standard_uncertainty},
            {"ratio", pair.ratio},
            {"ratio_uncertainty", pair.ratio_uncertainty},
            {"deviations", pair.deviations},
            {"significant", pair.significant}};
}

template <typename Value>
Json forms_of(const std::vector<Value>& values) {
    Json forms = Json::array();
    for (const Value& value : values)
        forms.push_back(form_of(value));
    return forms;
}

Json form_of(const ComparedQuantity& quantity) {
    Json form{{"quantity", name(quantity.question.quantity)}, {"unit", unit(quantity.question.quantity)}};
    if (quantity.question.frequency_hz) form["frequency"] = *quantity.question.frequency_hz;
    if (quantity.question.circuit) form["circuit"] = name(*quantity.question.circuit);
    form["values"] = forms_of(quantity.values);
    form["pairs"] = forms_of(quantity.pairs);
    return form;
}

Json form_of(const HumCancelling& hum) {
    return {{"turns_ratio", hum.turns_ratio.value},
            {"turns_ratio_uncertainty", hum.turns_ratio.standard_uncertainty},
            {"turns_from", hum.turns_from},
            {"hum_left", hum.hum_left.value},
            {"hum_left_uncertainty", hum.hum_left.standard_uncertainty},
            {"may_be_none", hum.may_be_none},
            {"polarity", hum.polarity}};
}

} // namespace

std::string comparison_to_json(const CoilComparison& comparison) {
    Json document{{"coils", forms_of(comparison.coils)},
                  {"confidence", comparison.confidence},
                  {"needed_deviations", comparison.needed_deviations},
                  {"same_meter_correlation", comparison.correlation},
                  {"quantities", Json::array()}};
    for (const ComparedQuantity& quantity : comparison.quantities)
        document["quantities"].push_back(form_of(quantity));
    if (comparison.hum) document["hum_cancelling"] = form_of(*comparison.hum);
    return on_one_line(document);
}

} // namespace coilward
