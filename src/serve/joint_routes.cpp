#include "bench/clock.h"
#include "guide/kin_notes.h"
#include "history/examination_of.h"
#include "reading/examination_json.h"
#include "rewind/quantity_words.h"
#include "serve/diagnosis_json_for_page.h"
#include "serve/request_json.h"
#include "serve/route.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

constexpr const char* whole = "whole";
constexpr const char* over_range = "over-range"; // what a person types where the meter shows no number
constexpr double told_frequency_hz = 1000.0;     // of the whole's inductance: what the form asks for

/// Throws CannotDiagnose where there is nothing to join.
void require_several_coils(const Pickup& pickup) {
    if (pickup.coils.size() < 2)
        throw CannotDiagnose(fmt::format("{} has one coil; there is no joint to judge", pickup.name));
}

Visit latest_visit(const History& history, const Pickup& pickup) {
    const auto visits = history.visits_of(pickup.id);
    if (visits.empty())
        throw NotFound(fmt::format("{} was not examined yet; examine its coils first", pickup.name));
    return visits.back();
}

/// The coils that the history takes for its set; none where it is to be judged alone.
std::vector<Kin> kin_in(const httplib::Request& request, const History& history, const Pickup& pickup,
                        const Visit& visit) {
    if (request.has_param("alone")) return {};
    return kin_by_instrument(history, pickup, visit);
}

PickupDiagnosis judged(const Rules& rules, Examination examination, const std::vector<Kin>& kin) {
    hold_beside(examination, kin);
    PickupDiagnosis diagnosis = diagnose_pickup(rules, examination);
    note_kin(diagnosis, kin);
    return diagnosis;
}

void show_joint(const BenchServices& services, const httplib::Request& request, httplib::Response& response) {
    const History history = services.open_history();
    const Pickup pickup = pickup_in(history, request);
    require_several_coils(pickup);
    const Visit visit = latest_visit(history, pickup);
    const auto diagnosis = judged(services.rules, examination_of(history, pickup, visit),
                                  kin_in(request, history, pickup, visit));
    answer_json(response, diagnosis_for_page(diagnosis, services.rules));
}

/// "8.08k", or "8.08k±4" with its standard uncertainty; without one an ordinary bench meter's is assumed,
/// which the diagnosis notes.
void set_number(Reading& reading, const char* key, const std::string& words) {
    constexpr double not_said = -1.0; // no words give it: below nought is refused
    const auto [value, uncertainty] = uncertain_in_words(key, words, unit(reading.quantity), not_said);
    if (!(value > 0.0)) throw BadWords(key, fmt::format("\"{}\" is not above 0", words));
    if (uncertainty == 0.0)
        throw BadWords(key,
                       fmt::format("\"{}\" has no uncertainty above 0; leave it out or give one", words));
    reading.value = value;
    if (uncertainty != not_said) reading.standard_uncertainty = uncertainty;
}

/// What a person read of both coils together, each where it was given.
std::vector<Reading> told_of_the_whole(const Placed& document) {
    std::vector<Reading> told;
    const auto given = [&](const char* key) { return text_in(document, key).value_or(""); };
    if (const auto words = given("dc_resistance"); !words.empty()) {
        told.push_back({.quantity = Quantity::dc_resistance, .coil = whole});
        if (words == over_range)
            told.back().state = State::over_range;
        else
            set_number(told.back(), "dc_resistance", words);
    }
    if (const auto words = given("inductance"); !words.empty()) {
        told.push_back({.quantity = Quantity::inductance,
                        .circuit = Circuit::series,
                        .frequency_hz = told_frequency_hz,
                        .coil = whole});
        set_number(told.back(), "inductance", words);
    }
    if (const auto kick = given("polarity"); !kick.empty()) {
        const auto polarity = polarity_named(kick);
        if (!polarity) complain(member(document, "polarity"), "as_expected, reversed or none");
        told.push_back({.quantity = Quantity::polarity, .polarity = polarity, .coil = whole});
    }
    if (told.empty()) throw BadDocument("give at least one of dc_resistance, inductance and polarity");
    return told;
}

void add_readings_of_the_whole(const BenchServices& services, const httplib::Request& request,
                               httplib::Response& response) {
    const nlohmann::json document = parse_json(request.body);
    const Placed place{&document, ""};
    object_at(place);
    History history = services.open_history();
    const Pickup pickup = pickup_in(history, request);
    require_several_coils(pickup);
    const Visit visit = latest_visit(history, pickup);
    const Moment now = MachineClock().now();
    Examination examination = examination_of(history, pickup, visit);
    std::vector<StoredReading> kept;
    for (const Reading& reading : told_of_the_whole(place)) {
        examination.readings.push_back(reading);
        kept.push_back({.id = random_id(), .visit = visit.id, .at = now, .reading = reading});
    }
    const PickupDiagnosis diagnosis =
        judged(services.rules, std::move(examination), kin_in(request, history, pickup, visit));
    history.append_readings(kept); // what cannot be judged leaves nothing behind
    answer_json(response, diagnosis_for_page(diagnosis, services.rules), 201);
    services.stream.publish("pickups", "{}");
}

} // namespace

std::vector<Route> joint_routes(const BenchServices& services) {
    return {{"GET", "/api/pickups/{number}/joint", with(services, show_joint)},
            {"POST", "/api/pickups/{number}/whole", with(services, add_readings_of_the_whole)}};
}

} // namespace coilward
