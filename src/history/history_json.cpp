#include "history/history_json.h"

#include "history/base64.h"
#include "history/hexadecimal.h"
#include "reading/json_line.h"
#include "reading/reading_json.h"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

/// As in a readings document: a coil model, or a pickup type and the coils' models.
void put_coils(Json& form, const Pickup& pickup) {
    if (!pickup.pickup_type.empty()) form["pickup_type"] = pickup.pickup_type;
    for (const auto& [name, coil_model] : pickup.coils)
        if (name.empty())
            form["coil_model"] = coil_model;
        else
            form["coils"][name] = coil_model;
}

Json form_of(const Pickup& pickup) {
    Json form{{"number", pickup.number},
              {"id", text_of(pickup.id)},
              {"name", pickup.name},
              {"owner", pickup.owner},
              {"instrument", pickup.instrument}};
    put_coils(form, pickup);
    form["notes"] = pickup.notes;
    form["added_at"] = text_of(pickup.added_at);
    return form;
}

Json form_of(const PickupChange& change) {
    return {{"edit", text_of(change.edit)},
            {"at", text_of(change.at)},
            {"field", change.field},
            {"former", change.former}};
}

Json form_of(const Attachment& attachment) {
    return {{"id", text_of(attachment.id)}, {"at", text_of(attachment.at)},
            {"name", attachment.name},      {"media_type", attachment.media_type},
            {"note", attachment.note},      {"sha256", text_of(attachment.content)}};
}

Json form_of(const StoredReading& stored) {
    Json form{{"id", text_of(stored.id)}, {"at", text_of(stored.at)}};
    form.update(readings_form(stored.reading));
    if (!stored.meter.empty()) form["meter"] = stored.meter;
    if (!stored.port.empty()) form["port"] = stored.port;
    if (!stored.raw.empty()) form["raw"] = in_hexadecimal(stored.raw);
    if (stored.corrects) form["corrects"] = text_of(*stored.corrects);
    if (!stored.remark.empty()) form["remark"] = stored.remark;
    return form;
}

Json form_of(const StoredVerdict& verdict) {
    Json form{{"id", text_of(verdict.id)}, {"at", text_of(verdict.at)}};
    if (!verdict.coil.empty()) form["coil"] = verdict.coil;
    form["fault"] = verdict.fault;
    form["probability"] = verdict.probability;
    form["decided"] = verdict.decided;
    form["healthy"] = verdict.healthy;
    const auto document = Json::parse(verdict.document, nullptr, false);
    if (!document.is_discarded()) form["diagnosis"] = document;
    return form;
}

Json form_of(const WholeVisit&);

template <typename Value>
Json forms_of(const std::vector<Value>& values) {
    Json forms = Json::array();
    for (const auto& value : values)
        forms.push_back(form_of(value));
    return forms;
}

Json form_of(const WholeVisit& whole) {
    const Visit& visit = whole.visit;
    return {{"id", text_of(visit.id)},
            {"at", text_of(visit.at)},
            {"stage", visit.stage},
            {"rewound", visit.rewound},
            {"notes", visit.notes},
            {"readings", forms_of(whole.readings)},
            {"verdicts", forms_of(whole.verdicts)}};
}

} // namespace

std::string pickups_to_json(const std::vector<Pickup>& pickups) {
    return on_one_line(Json{{"pickups", forms_of(pickups)}});
}

std::string pickup_to_json(const Pickup& pickup, const std::vector<PickupChange>& changes,
                           const std::vector<Attachment>& attachments) {
    auto form = form_of(pickup);
    form["changes"] = forms_of(changes);
    if (!attachments.empty()) form["attachments"] = forms_of(attachments);
    return on_one_line(form);
}

std::string history_to_json(const History& history, const Pickup& pickup) {
    Json visits = Json::array();
    for (const Visit& visit : history.visits_of(pickup.id))
        visits.push_back(
            form_of(WholeVisit{visit, history.readings_of(visit.id), history.verdicts_of(visit.id)}));
    return on_one_line(Json{{"pickup", form_of(pickup)}, {"visits", visits}});
}

std::string whole_pickup_to_json(const WholePickup& whole) {
    auto pickup = form_of(whole.pickup);
    pickup.erase("number");
    pickup["changes"] = forms_of(changes_in(whole.values));
    Json form{{"pickup", pickup}, {"visits", forms_of(whole.visits)}};
    for (const Attachment& attachment : whole.attachments) {
        auto attached = form_of(attachment);
        attached["bytes"] = in_base64(whole.contents.at(attachment.content));
        form["attachments"].push_back(attached);
    }
    return on_one_line(form);
}

} // namespace coilward
