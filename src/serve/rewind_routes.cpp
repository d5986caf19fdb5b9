#include "rewind/coil_knowledge.h"
#include "rewind/quantity_words.h"
#include "rules/coil_model_text.h"
#include "serve/query_words.h"
#include "serve/rewind_json.h"
#include "serve/rewind_record.h"
#include "serve/route.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {
namespace {

RecordPeople people_in(const httplib::Request& request) {
    return {.tested_by = request.get_param_value("tested_by"),
            .remarks = request.get_param_value("remarks"),
            .program = "coilward"};
}

/// The DC resistance that a pickup of the history had when it was last sound, where the query names one.
std::optional<Target> as_it_was_target(const BenchServices& services, const httplib::Request& request) {
    if (!request.has_param("as-it-was")) return std::nullopt;
    const History history = services.open_history();
    const Pickup pickup = pickup_numbered(history, request.get_param_value("as-it-was"));
    const auto was = as_it_was(history, pickup, request.get_param_value("coil"));
    if (!was)
        throw BadWords("as-it-was",
                       fmt::format("{} has no visit that judged this coil sound and read its DC resistance; "
                                   "give turns, a DC resistance or an inductance",
                                   pickup.name));
    return Target{TargetKind::dc_resistance, was->resistance_20_ohm,
                  fmt::format("as it was on {}", text_of(was->at).substr(0, 10))};
}

void show_plan(const BenchServices& services, const httplib::Request& request, httplib::Response& response) {
    const std::string id = request.get_param_value("model");
    const CoilModel* model = services.rules.coil_model(id);
    if (!model && !id.empty()) throw BadWords("model", fmt::format("there is no coil model \"{}\"", id));
    answer_json(response,
                plan_for_page(plan_in_words(plan_words_in(request), model,
                                            model ? services.rules.allowed(*model) : AllowedRanges{},
                                            as_it_was_target(services, request))));
}

void show_confirmation(const BenchServices& services, const httplib::Request& request,
                       httplib::Response& response) {
    const History history = services.open_history();
    answer_json(response,
                confirmation_for_page(latest_confirmed(history, pickup_in(history, request), services.rules,
                                                       confirmation_words_in(request)),
                                      people_in(request)));
}

/// The record brings its style along: the policy allows exactly that text.
void show_record(const BenchServices& services, const httplib::Request& request,
                 httplib::Response& response) {
    const History history = services.open_history();
    const RewindRecord record =
        rewind_record(latest_confirmed(history, pickup_in(history, request), services.rules,
                                       confirmation_words_in(request)),
                      people_in(request));
    response.headers.erase("Content-Security-Policy");
    response.set_header("Content-Security-Policy", record.policy);
    response.set_header("Cache-Control", "no-store");
    response.set_content(record.page, "text/html; charset=utf-8");
}

const Visit& visit_called(const std::vector<Visit>& visits, const std::string& id) {
    const auto found =
        std::ranges::find_if(visits, [&](const Visit& visit) { return text_of(visit.id) == id; });
    if (found == visits.end()) throw NotFound(fmt::format("this pickup has no visit \"{}\"", id));
    return *found;
}

void show_comparison(const BenchServices& services, const httplib::Request& request,
                     httplib::Response& response) {
    const History history = services.open_history();
    const Pickup pickup = pickup_in(history, request);
    const auto visits = history.visits_of(pickup.id);
    const std::string coil = request.get_param_value("coil");
    answer_json(
        response,
        comparison_for_page(compare(
            {compared_coil(history, pickup, coil, visit_called(visits, request.get_param_value("before"))),
             compared_coil(history, pickup, coil, visit_called(visits, request.get_param_value("after")))},
            {.bench = services.rules.bench_readings})));
}

/// What the answers so far say of each quantity, and the file where they are enough and an id is given.
void show_new_model(const BenchServices& services, const httplib::Request& request,
                    httplib::Response& response) {
    const ModelWords words = model_words_in(request);
    const auto ranges = computed_ranges(known_in_words(words, services.rules));
    const std::string id = request.get_param_value("id");
    std::string trouble;
    std::string text;
    try {
        if (!id.empty())
            text =
                coil_model_text(computed_model(words, services.rules, id, request.get_param_value("title")));
    } catch (const NoCoilModel& error) {
        trouble = error.what();
    }
    answer_json(response, computed_ranges_for_page(ranges, trouble, text));
}

} // namespace

std::vector<Route> rewind_routes(const BenchServices& services) {
    return {{"GET", "/api/plan", with(services, show_plan)},
            {"GET", "/api/new-coil-model", with(services, show_new_model)},
            {"GET", "/api/pickups/{number}/comparison", with(services, show_comparison)},
            {"GET", "/api/pickups/{number}/confirmation", with(services, show_confirmation)},
            {"GET", "/api/pickups/{number}/record", with(services, show_record)}};
}

} // namespace coilward
