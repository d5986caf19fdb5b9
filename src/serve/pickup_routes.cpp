#include "history/correction.h"
#include "history/history_json.h"
#include "reading/examination_json.h"
#include "rewind/quantity_words.h"
#include "serve/pickup_json.h"
#include "serve/picture.h"
#include "serve/request_json.h"
#include "serve/route.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

void list_pickups(const BenchServices& services, const httplib::Request& request,
                  httplib::Response& response) {
    answer_json(response,
                pickups_to_json(services.open_history().pickups(request.get_param_value("search"))));
}

void show_pickup(const BenchServices& services, const httplib::Request& request,
                 httplib::Response& response) {
    const History history = services.open_history();
    answer_json(response, pickup_for_page(history, pickup_in(history, request), services.rules));
}

void add_pickup(const BenchServices& services, const httplib::Request& request, httplib::Response& response) {
    const Pickup asked = pickup_from_request(request.body, services.rules,
                                             {.id = random_id(), .added_at = MachineClock().now()});
    History history = services.open_history();
    answer_json(response, pickup_to_json(history.add_pickup(asked), {}), 201);
    services.stream.publish("pickups", "{}");
}

void edit_pickup(const BenchServices& services, const httplib::Request& request,
                 httplib::Response& response) {
    History history = services.open_history();
    const Pickup known = pickup_in(history, request);
    history.edit_pickup(pickup_from_request(request.body, services.rules, known), random_id(),
                        MachineClock().now());
    answer_json(response, pickup_for_page(history, *history.pickup(known.id), services.rules));
    services.stream.publish("pickups", "{}");
}

StoredReading reading_called(const History& history, const Pickup& pickup, const std::string& id) {
    for (const Visit& visit : history.visits_of(pickup.id))
        for (StoredReading& stored : history.readings_of(visit.id))
            if (text_of(stored.id) == id) return std::move(stored);
    throw NotFound(fmt::format("{} has no reading \"{}\"", pickup.name, id));
}

/// What a request says of a correction, its numbers as a person types them: "6.12k".
Correction correction_in(const Placed& document, Quantity quantity) {
    Correction correction{.coil = text_in(document, "coil"), .why = text_in(document, "why").value_or("")};
    const auto unit_name = unit(quantity);
    if (const auto value = text_in(document, "value"); value && !value->empty())
        correction.value = unit_name.empty() ? 0.0 : number_in_words("value", *value, unit_name);
    if (const auto u = text_in(document, "uncertainty"); u && !u->empty())
        correction.standard_uncertainty = positive_in_words("uncertainty", *u, unit_name);
    return correction;
}

void correct_reading(const BenchServices& services, const httplib::Request& request,
                     httplib::Response& response) {
    const nlohmann::json document = parse_json(request.body);
    const Placed place{&document, ""};
    History history = services.open_history();
    const Pickup pickup = pickup_in(history, request);
    const StoredReading wrong =
        reading_called(history, pickup, text_at(member(place, "reading"), "a reading's id"));
    const auto current = current_readings(history.readings_of(wrong.visit));
    if (std::ranges::find(current, wrong.id, &StoredReading::id) == current.end())
        throw NoCorrection("this reading is corrected already; correct the later one");
    history.append_reading(
        correction_of(wrong, correction_in(place, wrong.reading.quantity), MachineClock().now()));
    answer_json(response, pickup_for_page(history, pickup, services.rules), 201);
    services.stream.publish("pickups", "{}");
}

/// A file's name as it may stand in a header and on any disk.
std::string plain_name(const std::string& said, const PictureKind& kind) {
    constexpr std::size_t longest = 80;
    std::string name;
    for (const char c : said)
        if (std::isalnum(static_cast<unsigned char>(c)) || c == '-' || c == '_') name += c;
    return (name.empty() ? "picture" : name.substr(0, longest)) + std::string(kind.extension);
}

void attach_picture(const BenchServices& services, const httplib::Request& request,
                    httplib::Response& response) {
    const auto kind = picture_kind(request.body);
    if (!kind) throw NotAPicture("this is no JPEG, PNG or WebP picture; choose another file");
    History history = services.open_history();
    const Pickup pickup = pickup_in(history, request);
    const std::string note = request.get_param_value("note").substr(0, 400);
    history.attach({.id = random_id(),
                    .pickup = pickup.id,
                    .at = MachineClock().now(),
                    .name = plain_name(request.get_param_value("name"), *kind),
                    .media_type = std::string(kind->media_type),
                    .note = note,
                    .content = content_hash(request.body)},
                   request.body);
    answer_json(response, pickup_for_page(history, pickup, services.rules), 201);
    services.stream.publish("pickups", "{}");
}

/// Whatever it is, nothing in it runs; what is no picture by its own bytes is only there to be saved.
void show_attachment(const BenchServices& services, const httplib::Request& request,
                     httplib::Response& response) {
    const History history = services.open_history();
    const Pickup pickup = pickup_in(history, request);
    const auto hash = content_hash_from_text(request.matches[2].str());
    const auto attachments = history.attachments_of(pickup.id);
    const auto found =
        std::ranges::find_if(attachments, [&](const auto& each) { return each.content == hash; });
    if (!hash || found == attachments.end()) throw NotFound(fmt::format("{} has no such file", pickup.name));
    const std::string bytes = history.content(*hash);
    const auto kind = picture_kind(bytes);
    response.headers.erase("Content-Security-Policy");
    response.set_header("Content-Security-Policy", "default-src 'none'; sandbox");
    response.set_header("Cache-Control", "no-store");
    if (!kind) response.set_header("Content-Disposition", "attachment");
    response.set_content(bytes, kind ? std::string(kind->media_type) : "application/octet-stream");
}

} // namespace

std::vector<Route> pickup_routes(const BenchServices& services) {
    return {{"GET", "/api/pickups", with(services, list_pickups)},
            {"POST", "/api/pickups", with(services, add_pickup)},
            {"GET", "/api/pickups/{number}", with(services, show_pickup)},
            {"PATCH", "/api/pickups/{number}", with(services, edit_pickup)},
            {"POST", "/api/pickups/{number}/corrections", with(services, correct_reading)},
            {"POST", "/api/pickups/{number}/pictures", with(services, attach_picture)},
            {"GET", "/api/pickups/{number}/attachments/{hash}", with(services, show_attachment)}};
}

} // namespace coilward
