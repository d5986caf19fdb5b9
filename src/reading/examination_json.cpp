#include "reading/examination_json.h"

#include "reading/json_text.h"
#include "reading/reading_json.h"

#include <fmt/format.h>

namespace coilward {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

std::string id_at(const Placed& at) {
    if (!at.present()) return {};
    if (at.value->is_number() || at.value->is_boolean()) return at.value->dump();
    if (!at.value->is_string()) complain(at, "a string");
    return at.value->get<std::string>();
}

CoilNames coils_at(const Placed& at) {
    constexpr auto expected = "an object with the coil model of each coil";
    if (object_at(at, expected).empty()) complain(at, expected);
    CoilNames coils;
    for (const auto& [coil, model] : at.value->items()) {
        if (coil.empty() || coil == "whole")
            throw BadDocument(fmt::format("{}: a coil is named {}, which is no name for one coil; rename it",
                                          at.place, in_quotes(coil)));
        coils[coil] = text_at(member(at, coil), "the id of a coil model");
    }
    return coils;
}

/// Of one coil, or of a pickup of several; not of both.
void read_subject(const Placed& document, Examination& examination) {
    const auto model = member(document, "coil_model");
    const auto type = member(document, "pickup_type");
    const auto coils = member(document, "coils");
    if (model.present() && (type.present() || coils.present()))
        throw BadDocument(
            fmt::format("{}: given together with coil_model, expected one of the two; remove coil_model "
                        "for a pickup of several coils",
                        type.present() ? "pickup_type" : "coils"));
    if (!model.present() && !type.present() && !coils.present())
        complain(model, "the id of a coil model, or pickup_type with coils for a pickup of several");
    if (model.present()) {
        examination.coil_model = text_at(model, "the id of a coil model");
        return;
    }
    examination.pickup_type = text_at(type, "the id of a pickup type");
    examination.coils = coils_at(coils);
}

std::vector<Reading> readings_at(const Placed& at, const CoilNames& coils) {
    const auto& array = array_at(at, "an array of readings");
    std::vector<Reading> readings;
    for (std::size_t i = 0; i < array.size(); ++i)
        readings.push_back(reading_at(element(at, i), coils));
    return readings;
}

/// Dates begin with four digits, a minus and two digits (RFC 3339 5.6); that much is needed to sort them by
/// text.
bool looks_like_date(std::string_view text) {
    constexpr std::string_view shape = "dddd-dd-dd";
    if (text.size() < shape.size()) return false;
    for (std::size_t i = 0; i < shape.size(); ++i) {
        const bool digit = text[i] >= '0' && text[i] <= '9';
        if (shape[i] == 'd' ? !digit : text[i] != shape[i]) return false;
    }
    return true;
}

bool healthy_at(const Placed& at) {
    if (!at.present() || !at.value->is_boolean()) complain(at, "true or false");
    return at.value->get<bool>();
}

EarlierExamination earlier_at(const Placed& at, const CoilNames& coils) {
    object_at(at, "an object with at, healthy and readings");
    EarlierExamination earlier;
    const auto time = member(at, "at");
    constexpr auto expected_time = R"(a time such as "2024-03-02T10:00:00Z")";
    earlier.at = text_at(time, expected_time);
    if (!looks_like_date(earlier.at)) complain(time, expected_time);
    earlier.healthy = healthy_at(member(at, "healthy"));
    earlier.readings = readings_at(member(at, "readings"), coils);
    return earlier;
}

constexpr std::string_view twin = "twin";
constexpr std::string_view of_one_set = "set";

Kinship kinship_at(const Placed& at) {
    constexpr auto expected = R"("twin" or "set")";
    const std::string text = text_at(at, expected);
    if (text == twin) return Kinship::twin;
    if (text != of_one_set) complain(at, expected);
    return Kinship::set;
}

/// Which of the examined coils another was made like: one of their names, or none where there is but one.
std::string coil_made_like(const Placed& at, const CoilNames& coils) {
    if (coils.empty()) {
        if (at.present()) complain(at, "nothing, since a single coil has no name");
        return {};
    }
    constexpr auto expected = "the name of the coil that it was made like";
    std::string name = text_at(at, expected);
    if (!coils.contains(name)) complain(at, expected);
    return name;
}

AlikeCoil alike_at(const Placed& at, const CoilNames& coils) {
    object_at(at, "an object with as, healthy and readings");
    AlikeCoil alike;
    alike.as = kinship_at(member(at, "as"));
    alike.coil = coil_made_like(member(at, "coil"), coils);
    if (const auto model = member(at, "coil_model"); model.present())
        alike.coil_model = text_at(model, "the id of a coil model");
    alike.healthy = healthy_at(member(at, "healthy"));
    alike.readings = readings_at(member(at, "readings"), {});
    return alike;
}

ordered_json alike_form(const AlikeCoil& alike, const ordered_json& readings) {
    ordered_json form{{"as", alike.as == Kinship::twin ? twin : of_one_set}};
    if (!alike.coil.empty()) form["coil"] = alike.coil;
    if (!alike.coil_model.empty()) form["coil_model"] = alike.coil_model;
    form["healthy"] = alike.healthy;
    form["readings"] = readings;
    return form;
}

ordered_json readings_array(const std::vector<Reading>& readings) {
    auto array = ordered_json::array();
    for (const auto& reading : readings)
        array.push_back(readings_form(reading));
    return array;
}

} // namespace

Examination examination_from_json(std::string_view text) {
    const auto parsed = parse_json(text);
    const Placed document{&parsed, ""};
    object_at(document, "an object with coil_model and readings");

    Examination examination;
    examination.id = id_at(member(document, "id"));
    read_subject(document, examination);
    examination.readings = readings_at(member(document, "readings"), examination.coils);
    if (const auto earlier = member(document, "earlier"); earlier.present()) {
        const auto& array = array_at(earlier, "an array of examinations");
        for (std::size_t i = 0; i < array.size(); ++i)
            examination.earlier.push_back(earlier_at(element(earlier, i), examination.coils));
    }
    if (const auto alike = member(document, "alike"); alike.present()) {
        const auto& array = array_at(alike, "an array of coils made alike");
        for (std::size_t i = 0; i < array.size(); ++i)
            examination.alike.push_back(alike_at(element(alike, i), examination.coils));
    }
    return examination;
}

std::string examination_to_json(const Examination& examination) {
    ordered_json document;
    if (!examination.id.empty()) document["id"] = examination.id;
    if (!examination.coil_model.empty()) document["coil_model"] = examination.coil_model;
    if (!examination.pickup_type.empty()) document["pickup_type"] = examination.pickup_type;
    if (!examination.coils.empty()) document["coils"] = examination.coils;
    document["readings"] = readings_array(examination.readings);
    for (const auto& earlier : examination.earlier)
        document["earlier"].push_back({{"at", earlier.at},
                                       {"healthy", earlier.healthy},
                                       {"readings", readings_array(earlier.readings)}});
    for (const auto& alike : examination.alike)
        document["alike"].push_back(alike_form(alike, readings_array(alike.readings)));
    return document.dump();
}

} // namespace coilward
