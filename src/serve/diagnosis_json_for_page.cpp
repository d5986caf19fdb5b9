#include "serve/diagnosis_json_for_page.h"

#include "reading/json_line.h"
#include "report/diagnosis_json.h"
#include "report/verdict_words.h"
#include "report/winding_section.h"
#include "units/engineering.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

constexpr double section_width = 600.0; // of winding_section_svg, with its margins

Json words_of(const Comparison& comparison) {
    const auto shown_unit = unit(comparison.reading.quantity);
    return {{"reading", describe(comparison.reading)},
            {"measured",
             engineering_with_uncertainty(comparison.measured, comparison.standard_uncertainty, shown_unit)},
            {"expected", engineering_range(comparison.expected.low, comparison.expected.high, shown_unit)}};
}

Json words_of(const FaultProbability& fault, const TitleOf& title_of) {
    Json estimates = Json::array();
    for (const Estimate& estimate : fault.estimates)
        estimates.push_back(estimate_in_words(estimate));
    return {{"fault", fault.fault},
            {"title", title_of(fault.fault)},
            {"percent", percent(fault.probability)},
            {"probability", fault.probability},
            {"estimates", std::move(estimates)}};
}

std::string section_of(const PlaceInWinding& place) {
    return fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\">{}</svg>",
                       section_width, winding_section_svg_height, winding_section_svg(place, 4.0, 4.0));
}

Json words_of(const Diagnosis& diagnosis, const TitleOf& title_of) {
    Json words;
    words["headline"] = verdict_headline(diagnosis, title_of);
    words["faults"] = Json::array();
    for (const FaultProbability& fault : diagnosis.faults)
        if (fault.probability >= least_probability_shown)
            words["faults"].push_back(words_of(fault, title_of));
    words["comparisons"] = Json::array();
    for (const Comparison& comparison : diagnosis.comparisons)
        words["comparisons"].push_back(words_of(comparison));
    if (diagnosis.place) {
        words["place"] = place_in_words(*diagnosis.place);
        words["section"] = section_of(*diagnosis.place);
    }
    if (diagnosis.in_turns.any()) words["in_turns"] = in_words(diagnosis.in_turns);
    if (diagnosis.polarity) {
        words["polarity"] = Json::array({diagnosis.polarity->says});
        if (!diagnosis.polarity->partner.empty()) words["polarity"].push_back(diagnosis.polarity->partner);
    }
    return words;
}

} // namespace

std::string diagnosis_for_page(const Diagnosis& diagnosis, const Rules& rules) {
    Json json = Json::parse(diagnosis_to_json(diagnosis));
    json["words"] = words_of(diagnosis, titles_of_faults(rules));
    return on_one_line(json);
}

std::string diagnosis_for_page(const PickupDiagnosis& diagnosis, const Rules& rules) {
    Json json = Json::parse(diagnosis_to_json(diagnosis));
    for (const auto& [name, coil] : diagnosis.coils)
        json["coils"][name]["words"] = words_of(coil, titles_of_faults(rules));
    json["whole"]["words"] = words_of(diagnosis.whole, titles_of_joints(rules, diagnosis.pickup_type));
    return on_one_line(json);
}

} // namespace coilward
