#include "serve/pickup_json.h"

#include "history/history_json.h"
#include "history/history_page.h"
#include "reading/examination_json.h"
#include "reading/json_line.h"
#include "report/verdict_words.h"
#include "rewind/checked_quantity.h"
#include "rewind/temperature.h"
#include "rules/coils_of_type.h"
#include "serve/request_json.h"
#include "units/engineering.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

/// The same reading for the page, beside the form in which the history keeps it.
Json words_of(const StoredReading& stored, const Uncertain& temperature_c,
              const std::vector<BenchReading>& bench) {
    const Reading& reading = stored.reading;
    Json words{{"what", describe(reading)}, {"answer", answer_in_words(reading)}};
    if (reading.state != State::ok || !reading.value) return words;
    const auto uncertainty = uncertainty_of(reading, bench);
    if (!uncertainty) return words;
    words["standard_uncertainty"] = *uncertainty;
    if (reading.quantity == Quantity::dc_resistance && reading.between == Between::leads &&
        !reading.handling) {
        const Uncertain at_20 = at_20_ohm({*reading.value, *uncertainty}, temperature_c);
        words["at_20"] = {
            {"value", at_20.value},
            {"standard_uncertainty", at_20.standard_uncertainty},
            {"words", engineering_with_uncertainty(at_20.value, at_20.standard_uncertainty, "ohm")}};
    }
    return words;
}

void put_words(Json& visit, const std::vector<StoredReading>& readings, const Rules& rules) {
    const auto current = current_readings(readings);
    const Uncertain temperature_c = temperature_in(current).value_or(usual_room_c);
    std::map<std::string, const StoredReading*> by_id;
    for (const StoredReading& each : readings)
        by_id[text_of(each.id)] = &each;
    for (Json& reading : visit["readings"]) {
        const StoredReading& stored = *by_id.at(reading["id"]);
        reading["words"] = words_of(stored, temperature_c, rules.bench_readings);
        reading["corrected"] = std::ranges::find(current, stored.id, &StoredReading::id) == current.end();
    }
    for (Json& verdict : visit["verdicts"]) {
        verdict["title"] = title_of(verdict["fault"], rules);
        verdict["percent"] = percent(verdict["probability"]);
    }
}

void take_text(const Placed& document, const char* key, std::string& into) {
    if (auto text = text_in(document, key)) into = *std::move(text);
}

void take_coils(const Placed& document, Pickup& pickup) {
    if (const auto model = text_in(document, "coil_model")) {
        pickup.coils.clear();
        if (!model->empty()) pickup.coils.push_back({"", *model});
    }
    const Placed coils = member(document, "coils");
    if (!coils.present()) return;
    pickup.coils.clear();
    for (const auto& [name, model] : object_at(coils, "an object of coil names and coil models").items())
        pickup.coils.push_back({name, text_at({&model, coils.place + "." + name}, "a coil model's id")});
}

void require_known(const Rules& rules, const Pickup& pickup) {
    for (const PickupCoil& coil : pickup.coils)
        if (!rules.coil_model(coil.coil_model))
            throw BadDocument(fmt::format("coil_model: there is no coil model \"{}\"", coil.coil_model));
    if (!pickup.pickup_type.empty() && !rules.pickup_type(pickup.pickup_type))
        throw BadDocument(fmt::format("pickup_type: there is no pickup type \"{}\"", pickup.pickup_type));
    if (pickup.coils.size() > 1 && pickup.pickup_type.empty())
        throw BadDocument("pickup_type: missing, expected the type of a pickup of several coils");
}

/// As the pickup type has them: an object's members come in no order.
void put_in_order(const Rules& rules, Pickup& pickup) {
    const PickupType* type = rules.pickup_type(pickup.pickup_type);
    if (!type || pickup.coils.empty()) return;
    std::vector<std::string> given(pickup.coils.size());
    std::ranges::transform(pickup.coils, given.begin(), &PickupCoil::name);
    const auto names = coil_names(*type);
    if (!are_coils_of(*type, given))
        throw BadDocument(
            fmt::format("coils: a pickup of the type {} has the coils {}; give a model for each", type->id,
                        fmt::join(names, ", ")));
    std::ranges::sort(pickup.coils, {},
                      [&](const PickupCoil& coil) { return std::ranges::find(names, coil.name); });
}

} // namespace

std::string pickup_for_page(const History& history, const Pickup& pickup, const Rules& rules) {
    Json json = Json::parse(history_to_json(history, pickup));
    const Json with_changes =
        Json::parse(pickup_to_json(pickup, history.changes_of(pickup.id), history.attachments_of(pickup.id)));
    json["pickup"] = with_changes;
    const auto visits = history.visits_of(pickup.id);
    for (std::size_t i = 0; i < visits.size(); ++i)
        put_words(json["visits"][i], history.readings_of(visits[i].id), rules);
    return on_one_line(json);
}

Pickup pickup_from_request(std::string_view body, const Rules& rules, Pickup pickup) {
    const nlohmann::json document = parse_json(body);
    const Placed place{&document, ""};
    object_at(place);
    take_text(place, "name", pickup.name);
    take_text(place, "owner", pickup.owner);
    take_text(place, "instrument", pickup.instrument);
    take_text(place, "notes", pickup.notes);
    take_text(place, "pickup_type", pickup.pickup_type);
    take_coils(place, pickup);
    if (pickup.name.find_first_not_of(" \t\r\n") == std::string::npos)
        throw BadDocument("name: missing, expected what is written on its label");
    const bool names_kind =
        document.contains("pickup_type") || document.contains("coil_model") || document.contains("coils");
    if (!names_kind) return pickup; // its kind may be of rules that are no longer here
    require_known(rules, pickup);
    put_in_order(rules, pickup);
    return pickup;
}

} // namespace coilward
