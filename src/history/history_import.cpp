#include "history/history_import.h"

#include "history/base64.h"
#include "history/hexadecimal.h"
#include "reading/examination_json.h"
#include "reading/reading_json.h"

#include <algorithm>
#include <iterator>

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

/// The same document once more, with the members in the order in which they stand: that of the coils is a
/// person's own, and a diagnosis stays as it was.
using Ordered = nlohmann::ordered_json;

Id id_at(const Placed& at) {
    constexpr auto expected = "an id such as \"0f8fad5b-d9cb-469f-a165-70867728950e\"";
    const auto id = id_from_text(text_at(at, expected));
    if (!id) complain(at, expected);
    return *id;
}

Moment moment_at(const Placed& at) {
    constexpr auto expected = "a time such as \"2026-03-02T10:00:00.000Z\"";
    const auto moment = moment_from_text(text_at(at, expected));
    if (!moment) complain(at, expected);
    return *moment;
}

/// A text that may be empty, and is where it is absent.
std::string optional_text_at(const Placed& at, std::string_view expected) {
    if (!at.present() || (at.value->is_string() && at.value->get_ref<const std::string&>().empty()))
        return {};
    return text_at(at, expected);
}

bool truth_at(const Placed& at) {
    if (!at.present() || !at.value->is_boolean()) complain(at, "true or false");
    return at.value->get<bool>();
}

std::vector<PickupCoil> coils_at(const Placed& pickup, const Ordered& ordered) {
    if (const auto model = member(pickup, "coil_model"); model.present())
        return {{"", text_at(model, "a coil model's id")}};
    std::vector<PickupCoil> coils;
    const auto named = member(pickup, "coils");
    if (!named.present()) return coils;
    object_at(named);
    for (const auto& [name, model] : ordered.at("coils").items())
        coils.push_back({name, text_at(member(named, name), "a coil model's id")});
    return coils;
}

Pickup pickup_at(const Placed& at, const Ordered& ordered) {
    Pickup pickup{.id = id_at(member(at, "id")),
                  .number = 0,
                  .added_at = moment_at(member(at, "added_at")),
                  .name = text_at(member(at, "name"), "the pickup's name"),
                  .owner = optional_text_at(member(at, "owner"), "the owner's name"),
                  .instrument = optional_text_at(member(at, "instrument"), "the instrument"),
                  .pickup_type = optional_text_at(member(at, "pickup_type"), "a pickup type's id"),
                  .coils = coils_at(at, ordered),
                  .notes = optional_text_at(member(at, "notes"), "a text")};
    if (const auto number = member(at, "number"); number.present() && number.value->is_number_integer())
        pickup.number = number.value->get<std::int64_t>();
    return pickup;
}

/// What the fields were ever given, from what they are and what each edit replaced.
std::vector<PickupValue> values_at(const Placed& at, const Pickup& pickup) {
    std::vector<PickupValue> values;
    const auto changes = member(at, "changes");
    std::vector<PickupChange> told;
    for (std::size_t n = 0; changes.present() && n < array_at(changes).size(); ++n) {
        const auto change = element(changes, n);
        object_at(change, "an object with edit, at, field and former");
        told.push_back({id_at(member(change, "edit")), moment_at(member(change, "at")),
                        text_at(member(change, "field"), "a pickup's field"),
                        optional_text_at(member(change, "former"), "the value that was replaced")});
        if (std::ranges::none_of(values_of(pickup),
                                 [&](const PickupValue& value) { return value.field == told.back().field; }))
            complain(member(change, "field"), "one of name, owner, instrument, pickup_type, coils, notes");
    }
    for (PickupValue& value : values_of(pickup)) {
        PickupValue given = value; // the first of its field has what the pickup was kept with
        for (const PickupChange& change : told) {
            if (change.field != value.field) continue;
            given.value = change.former;
            values.push_back(given);
            given = {change.edit, change.at, change.field, {}};
        }
        given.value = value.value;
        values.push_back(given);
    }
    sort_by_time(values, pickup.id);
    return values;
}

StoredReading stored_at(const Placed& at, const Visit& visit) {
    object_at(at, "an object with a reading's id, time, quantity and value");
    StoredReading stored{.id = id_at(member(at, "id")),
                         .visit = visit.id,
                         .at = moment_at(member(at, "at")),
                         .meter = optional_text_at(member(at, "meter"), "a driver's id"),
                         .port = optional_text_at(member(at, "port"), "a port"),
                         .reading = reading_at(at, {}),
                         .raw = {},
                         .corrects = std::nullopt,
                         .remark = optional_text_at(member(at, "remark"), "a text")};
    if (const auto raw = member(at, "raw"); raw.present()) {
        const auto bytes = from_hexadecimal(text_at(raw, "bytes in hexadecimal"));
        if (!bytes) complain(raw, "bytes in hexadecimal, two digits each");
        stored.raw = *bytes;
    }
    if (const auto corrects = member(at, "corrects"); corrects.present()) stored.corrects = id_at(corrects);
    return stored;
}

StoredVerdict verdict_at(const Placed& at, const Ordered& ordered, const Visit& visit) {
    object_at(at, "an object with a verdict's id, time, fault and probability");
    const auto probability = member(at, "probability");
    StoredVerdict verdict{.id = id_at(member(at, "id")),
                          .visit = visit.id,
                          .coil = optional_text_at(member(at, "coil"), "a coil's name"),
                          .at = moment_at(member(at, "at")),
                          .fault = text_at(member(at, "fault"), "a fault's id"),
                          .probability = number_at(probability, "a number from 0 to 1"),
                          .decided = truth_at(member(at, "decided")),
                          .healthy = truth_at(member(at, "healthy")),
                          .document =
                              ordered.contains("diagnosis") ? ordered["diagnosis"].dump() : std::string()};
    if (verdict.probability < 0.0 || verdict.probability > 1.0) complain(probability, "a number from 0 to 1");
    return verdict;
}

WholeVisit visit_at(const Placed& at, const Ordered& ordered, const Pickup& pickup) {
    object_at(at, "an object with a visit's id, time and readings");
    const auto rewound = member(at, "rewound");
    WholeVisit whole{.visit = {.id = id_at(member(at, "id")),
                               .pickup = pickup.id,
                               .at = moment_at(member(at, "at")),
                               .stage = optional_text_at(member(at, "stage"), "a text"),
                               .rewound = rewound.present() && truth_at(rewound),
                               .notes = optional_text_at(member(at, "notes"), "a text")},
                     .readings = {},
                     .verdicts = {}};
    const auto readings = member(at, "readings");
    for (std::size_t n = 0; readings.present() && n < array_at(readings).size(); ++n)
        whole.readings.push_back(stored_at(element(readings, n), whole.visit));
    const auto verdicts = member(at, "verdicts");
    for (std::size_t n = 0; verdicts.present() && n < array_at(verdicts).size(); ++n)
        whole.verdicts.push_back(verdict_at(element(verdicts, n), ordered.at("verdicts")[n], whole.visit));
    return whole;
}

void read_attachment(const Placed& at, WholePickup& whole) {
    object_at(at, "an object with an attachment's id, name and bytes");
    const auto bytes = from_base64(text_at(member(at, "bytes"), "a file's bytes in base64"));
    if (!bytes) complain(member(at, "bytes"), "a file's bytes in base64");
    const auto hash = content_hash_from_text(text_at(member(at, "sha256"), "64 hexadecimal digits"));
    if (!hash || *hash != content_hash(*bytes))
        complain(member(at, "sha256"), "the SHA-256 of the bytes beside it");
    whole.attachments.push_back({.id = id_at(member(at, "id")),
                                 .pickup = whole.pickup.id,
                                 .at = moment_at(member(at, "at")),
                                 .name = text_at(member(at, "name"), "a file's name"),
                                 .media_type = text_at(member(at, "media_type"), "a media type"),
                                 .note = optional_text_at(member(at, "note"), "a text"),
                                 .content = *hash});
    whole.contents.emplace(*hash, *bytes);
}

WholePickup history_at(const Placed& at, const Ordered& ordered) {
    object_at(at, "an object with a pickup and its visits");
    object_at(member(at, "pickup"), "an object with a pickup's id and name");
    WholePickup whole{.pickup = pickup_at(member(at, "pickup"), ordered.at("pickup"))};
    whole.values = values_at(member(at, "pickup"), whole.pickup);
    const auto visits = member(at, "visits");
    for (std::size_t n = 0; n < array_at(visits, "an array of visits").size(); ++n)
        whole.visits.push_back(visit_at(element(visits, n), ordered.at("visits")[n], whole.pickup));
    const auto attachments = member(at, "attachments");
    for (std::size_t n = 0; attachments.present() && n < array_at(attachments).size(); ++n)
        read_attachment(element(attachments, n), whole);
    return whole;
}

} // namespace

std::vector<WholePickup> whole_pickups_from_json(std::string_view text) {
    const auto document = parse_json(text);
    const auto ordered = Ordered::parse(text);
    const Placed root{&document, ""};
    object_at(root, "an object with \"histories\"");
    if (member(root, "pickup").present()) return {history_at(root, ordered)};
    const auto histories = member(root, "histories");
    std::vector<WholePickup> pickups;
    for (std::size_t n = 0; n < array_at(histories, "an array of histories").size(); ++n)
        pickups.push_back(history_at(element(histories, n), ordered.at("histories")[n]));
    return pickups;
}

Adopted import(History& history, const std::vector<WholePickup>& pickups) {
    Adopted adopted;
    history.all_or_nothing([&] {
        for (const WholePickup& pickup : pickups)
            adopt(history, pickup, adopted);
    });
    return adopted;
}

} // namespace coilward
