#include "serve/rewind_json.h"

#include "reading/json_line.h"
#include "report/comparison_page.h"
#include "report/confirmation_words.h"
#include "report/plan_page.h"
#include "report/verdict_words.h"
#include "serve/form_words.h"
#include "units/engineering.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

Json words_of(const Figure& figure) {
    return {{"title", figure_title(figure.name)},
            {"amount", amount_in_words(figure)},
            {"cause", figure.main_cause.empty()
                          ? std::string()
                          : fmt::format("mainly {} ({})", figure.main_cause, percent(figure.cause_share))}};
}

Json words_of(const OtherWire& other) {
    return {{"wire", other.title},
            {"turns_for_target", fmt::format("{:.0f}", other.turns_for_target)},
            {"fits", fit_in_words(other.plan.fit)}};
}

Json words_of(const Checked& checked) {
    return {{"title", title_of(checked.requirement)},
            {"judged", judged_in_words(checked)},
            {"limits", limits_in_words(checked.requirement)},
            {"from", checked.requirement.from},
            {"probability", probability_in_words(checked)},
            {"decision", name(checked.conformity.decision)},
            {"says", checked.says}};
}

Json turns_in_words(const TurnsCheck& check) {
    Json rows = Json::array();
    if (check.counted)
        rows.push_back({{"from", "the counter"}, {"turns", fmt::format("{:.0f}", check.counted->value)}});
    for (const ImpliedTurns& implied : check.implied)
        rows.push_back({{"from", implied.from},
                        {"turns", fmt::format("{:.0f} ± {:.0f}", implied.turns.value,
                                              implied.turns.standard_uncertainty)}});
    return rows;
}

Json words_of(const ComparedQuantity& quantity) {
    const auto shown_unit = unit(quantity.question.quantity);
    Json values = Json::array();
    for (const ComparedValue& value : quantity.values)
        values.push_back(value.value ? engineering_with_uncertainty(
                                           value.value->value, value.value->standard_uncertainty, shown_unit)
                                     : value.says);
    Json row{{"title", describe(quantity.question)}, {"values", std::move(values)}};
    if (quantity.pairs.empty()) return row;
    const ComparedPair& pair = quantity.pairs.front();
    row["difference"] =
        engineering_with_uncertainty(pair.difference.value, pair.difference.standard_uncertainty, shown_unit);
    row["per_cent"] = per_cent_in_words(pair);
    row["says"] = pair.significant ? "differs" : "no more than chance";
    return row;
}

} // namespace

std::string plan_for_page(const WholePlan& whole) {
    Json json = Json::parse(plan_to_json(whole.job, whole.plan, whole.others));
    Json& words = json["words"];
    words["turns"] = fmt::format("{:.0f}", whole.plan.turns);
    words["fits"] = fit_in_words(whole.plan.fit);
    words["figures"] = Json::array();
    for (const Figure& figure : whole.plan.figures)
        words["figures"].push_back(words_of(figure));
    words["notes"] = Json::array();
    for (const Json& note : json["notes"])
        words["notes"].push_back(without_dashes(note.get<std::string>()));
    words["other_wires"] = Json::array();
    for (const OtherWire& other : whole.others)
        words["other_wires"].push_back(words_of(other));
    return on_one_line(json);
}

std::string confirmation_for_page(const Confirmation& confirmation, const RecordPeople& people) {
    Json json = Json::parse(confirmation_to_json(confirmation, people));
    Json& words = json["words"];
    words["subject"] = subject_in_words(confirmation);
    words["decision"] = decision_in_capitals(confirmation.decision);
    words["temperature"] = temperature_in_words(confirmation);
    words["rule"] = rule_in_words(confirmation.rule);
    words["turns"] = turns_in_words(confirmation.turns);
    words["checked"] = Json::array();
    for (const Checked& checked : confirmation.checked)
        words["checked"].push_back(words_of(checked));
    return on_one_line(json);
}

std::string comparison_for_page(const CoilComparison& comparison) {
    Json json = Json::parse(comparison_to_json(comparison));
    Json& words = json["words"];
    words["titles"] = Json::array();
    for (const ComparedCoil& coil : comparison.coils)
        words["titles"].push_back(coil.title);
    words["quantities"] = Json::array();
    for (const ComparedQuantity& quantity : comparison.quantities)
        words["quantities"].push_back(words_of(quantity));
    words["rule"] = fmt::format("A difference counts from {:.2f} of its standard uncertainties on: of coils "
                                "that are alike, {} of such comparisons show none.",
                                comparison.needed_deviations, percent(comparison.confidence));
    return on_one_line(json);
}

std::string computed_ranges_for_page(const std::vector<ComputedRange>& ranges, const std::string& trouble,
                                     const std::string& file_text) {
    Json json{{"ranges", Json::array()}};
    for (const ComputedRange& range : ranges)
        json["ranges"].push_back(
            {{"quantity", range.quantity},
             {"unit", range.unit},
             {"range", range.range ? Json{range.range->low, range.range->high} : Json()},
             {"words", range.range ? engineering_range(range.range->low, range.range->high, range.unit)
                                   : std::string("open")},
             {"from", range.from}});
    if (!trouble.empty()) json["trouble"] = trouble;
    if (!file_text.empty()) json["file"] = file_text;
    return on_one_line(json);
}

} // namespace coilward
