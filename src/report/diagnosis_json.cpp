#include "report/diagnosis_json.h"

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

// Member by member: a list in braces makes each pair an array of its own first, which is half of the time.

/// With room for as many members as the largest has, so that none moves while it is built.
Json object() {
    Json::object_t members;
    members.reserve(10);
    return members;
}

Json json_of(const Estimate& estimate) {
    Json json = object();
    json["name"] = estimate.name;
    json["value"] = estimate.value;
    json["low"] = estimate.low;
    json["high"] = estimate.high;
    return json;
}

Json json_of(const FaultProbability& fault) {
    Json estimates = Json::array();
    for (const Estimate& estimate : fault.estimates)
        estimates.push_back(json_of(estimate));
    Json json = object();
    json["fault"] = fault.fault;
    json["probability"] = fault.probability;
    json["estimates"] = std::move(estimates);
    return json;
}

Json json_of(const PlaceInWinding& place) {
    return {{"at_start", place.at_start},
            {"parts", place.parts},
            {"at_finish", place.at_finish},
            {"mendable_outside", place.mendable_outside}};
}

Json json_of(const Counted& counted) {
    return {{"value", counted.value}, {"low", counted.low}, {"high", counted.high}};
}

Json json_of(const InTurns& counted) {
    Json json = object();
    const auto put = [&](const char* key, const std::optional<Counted>& count) {
        if (count) json[key] = json_of(*count);
    };
    put("shorted", counted.shorted);
    put("shorted_layers", counted.shorted_layers);
    put("from_start", counted.from_start);
    put("from_finish", counted.from_finish);
    return json;
}

Json json_of(const PolarityFinding& found) {
    Json json = object();
    const auto put = [&](const char* key, const std::optional<Polarity>& polarity) {
        if (polarity) json[key] = name(*polarity);
    };
    put("kick", found.kick);
    put("magnet", found.magnet);
    put("winding", found.winding);
    json["says"] = found.says;
    if (!found.partner.empty()) json["partner"] = found.partner;
    return json;
}

Json json_of(const Comparison& comparison) {
    const Reading& reading = comparison.reading;
    Json json = object();
    json["quantity"] = name(reading.quantity);
    json["between"] = name(reading.between);
    if (reading.circuit) json["circuit"] = name(*reading.circuit);
    if (reading.frequency_hz) json["frequency"] = *reading.frequency_hz;
    json["measured"] = comparison.measured;
    json["standard_uncertainty"] = comparison.standard_uncertainty;
    json["unit"] = unit(reading.quantity);
    json["expected"] = {comparison.expected.low, comparison.expected.high};
    json["standing"] = name(comparison.standing);
    json["probability_within"] = comparison.probability_within;
    return json;
}

Json json_of(const Reason& reason) {
    Json json = object();
    json["reading"] = reason.reading;
    json["says"] = reason.says;
    json["decibans"] = reason.decibans;
    return json;
}

Json json_of(const NextReading& next) {
    Json json = object();
    json["reading"] = next.reading;
    json["gain_bits"] = next.gain_bits;
    json["seconds"] = next.seconds;
    json["how"] = next.how;
    json["quantity"] = name(next.question.quantity);
    json["between"] = name(next.question.between);
    if (next.question.frequency_hz) json["frequency"] = *next.question.frequency_hz;
    if (next.question.handling) json["handling"] = name(*next.question.handling);
    if (!next.question.coil.empty()) json["coil"] = next.question.coil;
    return json;
}

template <typename Item>
Json list_of(const std::vector<Item>& items) {
    Json list = Json::array();
    for (const Item& item : items)
        list.push_back(json_of(item));
    return list;
}

Json verdict_of(const FaultProbability& verdict, bool decided) {
    return {{"fault", verdict.fault}, {"probability", verdict.probability}, {"decided", decided}};
}

/// All but the id and whose it is.
void put_body(Json& json, const Diagnosis& diagnosis) {
    json["verdict"] = verdict_of(diagnosis.verdict, diagnosis.decided);
    json["faults"] = list_of(diagnosis.faults);
    if (diagnosis.place) json["place"] = json_of(*diagnosis.place);
    if (diagnosis.in_turns.any()) json["in_turns"] = json_of(diagnosis.in_turns);
    if (diagnosis.polarity) json["polarity"] = json_of(*diagnosis.polarity);
    json["comparisons"] = list_of(diagnosis.comparisons);
    json["reasons"] = list_of(diagnosis.reasons);
    json["next"] = list_of(diagnosis.next);
    json["advice"] = diagnosis.advice;
    json["cautions"] = diagnosis.cautions;
    json["notes"] = diagnosis.notes;
}

/// `id` as it was written in the readings document, or the examination's own.
void put_id(Json& json, const std::string& written, const std::string& own) {
    if (!written.empty())
        json["id"] = Json::parse(written);
    else if (!own.empty())
        json["id"] = own;
}

} // namespace

std::string diagnosis_to_json(const Diagnosis& diagnosis, const std::string& id) {
    Json json = object();
    put_id(json, id, diagnosis.id);
    json["coil_model"] = diagnosis.coil_model;
    put_body(json, diagnosis);
    return json.dump();
}

std::string diagnosis_to_json(const PickupDiagnosis& pickup, const std::string& id) {
    Json json = object();
    put_id(json, id, pickup.id);
    json["pickup_type"] = pickup.pickup_type;
    json["verdict"] = verdict_of(pickup.verdict, pickup.decided);
    json["verdict"]["coil"] = pickup.verdict_coil;
    for (const auto& [name, diagnosis] : pickup.coils) {
        Json& coil = json["coils"][name];
        coil["coil_model"] = diagnosis.coil_model;
        put_body(coil, diagnosis);
    }
    put_body(json["whole"], pickup.whole);
    return json.dump();
}

} // namespace coilward
