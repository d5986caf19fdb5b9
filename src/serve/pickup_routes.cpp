#include "history/history_json.h"
#include "reading/examination_json.h"
#include "serve/pickup_json.h"
#include "serve/rewind_record.h"
#include "serve/route.h"

#include <fmt/format.h>

namespace coilward {
namespace {

Pickup pickup_in(const History& history, const httplib::Request& request) {
    const std::int64_t number = std::stoll(request.matches[1].str());
    if (auto pickup = history.pickup(number)) return *pickup;
    throw NotFound(fmt::format("there is no pickup {}", number));
}

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

/// The record brings its style along: the policy allows exactly that text.
void show_record(const BenchServices& services, const httplib::Request& request,
                 httplib::Response& response) {
    const History history = services.open_history();
    const RewindRecord record =
        rewind_record(history, pickup_in(history, request), services.rules, request.get_param_value("coil"),
                      {.tested_by = request.get_param_value("tested_by"),
                       .remarks = request.get_param_value("remarks"),
                       .program = "coilward"});
    response.headers.erase("Content-Security-Policy");
    response.set_header("Content-Security-Policy", record.policy);
    response.set_header("Cache-Control", "no-store");
    response.set_content(record.page, "text/html; charset=utf-8");
}

} // namespace

std::vector<Route> pickup_routes(const BenchServices& services) {
    const auto with = [&services](auto work) {
        return [&services, work](const httplib::Request& request, httplib::Response& response) {
            work(services, request, response);
        };
    };
    return {{"GET", "/api/pickups", with(list_pickups)},
            {"POST", "/api/pickups", with(add_pickup)},
            {"GET", "/api/pickups/{number}", with(show_pickup)},
            {"PATCH", "/api/pickups/{number}", with(edit_pickup)},
            {"GET", "/api/pickups/{number}/record", with(show_record)}};
}

} // namespace coilward
