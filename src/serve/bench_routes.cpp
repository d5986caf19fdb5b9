#include "bench/clock.h"
#include "reading/examination_json.h"
#include "serve/request_json.h"
#include "serve/route.h"
#include "serve/unfinished.h"

#include <cmath>
#include <memory>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

constexpr std::chrono::seconds heartbeat{10};

bool yes_or_no(const Placed& answer) {
    if (!answer.present() || !answer.value->is_boolean()) complain(answer, "true or false");
    return answer.value->get<bool>();
}

double temperature_at(const Placed& temperature) {
    const double value = number_at(temperature, "a temperature in degrees Celsius");
    if (!(value >= -40.0 && value <= 125.0)) complain(temperature, "a temperature of -40 to 125 °C");
    return value;
}

/// A number from 0 to 2^53, which JSON carries exactly.
std::uint64_t count_at(const Placed& count, const char* expected) {
    const double value = number_at(count, expected);
    if (!(value >= 0.0 && value <= 9e15) || value != std::floor(value)) complain(count, expected);
    return static_cast<std::uint64_t>(value);
}

/// A visit as a request describes it: a new one, or the pickup's latest one, which is to be gone on with.
Visit visit_in(const Placed& place, const History& history, const Pickup& pickup) {
    if (const auto known = text_in(place, "visit")) {
        const auto visits = history.visits_of(pickup.id);
        if (visits.empty() || text_of(visits.back().id) != *known)
            throw NotFound(
                fmt::format("visit {} is not the latest one of {}; begin a new one", *known, pickup.name));
        return visits.back();
    }
    Visit visit{.id = random_id(),
                .pickup = pickup.id,
                .at = MachineClock().now(),
                .stage = text_in(place, "stage").value_or(""),
                .notes = text_in(place, "complaint").value_or("")};
    if (const Placed rewound = member(place, "rewound"); rewound.present())
        visit.rewound = yes_or_no(rewound);
    return visit;
}

void begin_examination(const BenchServices& services, const httplib::Request& request,
                       httplib::Response& response) {
    const nlohmann::json document = parse_json(request.body);
    const Placed place{&document, ""};
    const auto number = static_cast<std::int64_t>(count_at(member(place, "pickup"), "a pickup's number"));
    const History history = services.open_history();
    const auto pickup = history.pickup(number);
    if (!pickup) throw NotFound(fmt::format("there is no pickup {}", number));
    CoilOnBench coil{.pickup = *pickup,
                     .coil = text_in(place, "coil").value_or(""),
                     .visit = visit_in(place, history, *pickup)};
    if (const Placed alone = member(place, "alone"); alone.present()) coil.alone = yes_or_no(alone);
    std::vector<Reading> told;
    if (const Placed temperature = member(place, "temperature"); temperature.present())
        told.push_back({.quantity = Quantity::temperature, .value = temperature_at(temperature)});
    services.examinations.begin(coil, told);
    answer_json(response, services.board.face_in_json(), 201);
}

Reply reply_at(const Placed& reply) {
    const std::string word = text_at(reply, "ready, skip or stop");
    if (word == "ready") return Reply::ready;
    if (word == "skip") return Reply::skip;
    if (word != "stop") complain(reply, "ready, skip or stop");
    return Reply::stop;
}

/// What the person read off for the open question.
std::optional<Reading> told_in(const Placed& document, const ExaminationFace& face) {
    if (face.phase != Phase::telling || !face.instruction) return std::nullopt;
    Reading reading = face.instruction->question;
    if (is_polarity(reading.quantity)) {
        const Placed polarity = member(document, "polarity");
        reading.polarity = polarity_named(text_at(polarity, "as_expected, reversed or none"));
        if (!reading.polarity) complain(polarity, "as_expected, reversed or none");
    } else {
        reading.value = temperature_at(member(document, "value"));
    }
    return reading;
}

void reply_to_step(const BenchServices& services, const httplib::Request& request,
                   httplib::Response& response) {
    const nlohmann::json document = parse_json(request.body);
    const Placed place{&document, ""};
    BoardReply answer{.step = count_at(member(place, "step"), "the number of the open step"),
                      .reply = reply_at(member(place, "reply")),
                      .reading = std::nullopt};
    const ExaminationFace face = services.board.face();
    if (answer.reply == Reply::ready && answer.step == face.step) answer.reading = told_in(place, face);
    if (!services.board.answer(answer)) throw CannotExamine("this step is answered already");
    answer_json(response, "{\"taken\":true}");
}

void choose_taking(const BenchServices& services, const httplib::Request& request,
                   httplib::Response& response) {
    const nlohmann::json document = parse_json(request.body);
    const bool by_settling = yes_or_no(member({&document, ""}, "by_settling"));
    services.board.change([&](ExaminationFace& face) { face.take_by_settling = by_settling; });
    answer_json(response, services.board.face_in_json());
}

void show_trace(const BenchServices& services, const httplib::Request& request, httplib::Response& response) {
    const auto meter = static_cast<std::size_t>(std::stoull(request.matches[1].str()));
    if (meter >= services.meters.size()) throw NotFound(fmt::format("there is no meter {}", meter));
    answer_json(response, services.meters.trace_to_json(meter));
}

std::string bench_in_json(const BenchServices& services) {
    const std::string faces = services.meters.faces_to_json();
    return fmt::format("{{\"examination\":{},{}", services.board.face_in_json(), faces.substr(1));
}

/// Everything as it is, then every change as it comes.
void stream(const BenchServices& services, const httplib::Request&, httplib::Response& response) {
    const auto subscription = services.stream.subscribe();
    if (!subscription) {
        response.set_header("Retry-After", "10");
        return answer_error(response, 503, "too many pages are open; close some");
    }
    response.set_header("Cache-Control", "no-store");
    const auto first = std::make_shared<std::string>(stream_event("bench", bench_in_json(services)));
    response.set_chunked_content_provider(
        "text/event-stream", [subscription, first](std::size_t, httplib::DataSink& sink) {
            std::string bytes = std::exchange(*first, {});
            if (bytes.empty()) bytes = subscription->next(heartbeat).value_or(": still here\n\n");
            return !subscription->over() && sink.write(bytes.data(), bytes.size());
        });
}

} // namespace

std::vector<Route> bench_routes(const BenchServices& services) {
    return {{"GET", "/api/bench",
             [&services](const httplib::Request&, httplib::Response& response) {
                 answer_json(response, bench_in_json(services));
             }},
            {"GET", "/api/bench/stream", with(services, stream)},
            {"GET", "/api/bench/unfinished",
             [&services](const httplib::Request&, httplib::Response& response) {
                 answer_json(response, unfinished_to_json(services.open_history()));
             }},
            {"GET", "/api/bench/meters/{number}/trace", with(services, show_trace)},
            {"POST", "/api/bench/examination", with(services, begin_examination)},
            {"POST", "/api/bench/reply", with(services, reply_to_step)},
            {"POST", "/api/bench/taking", with(services, choose_taking)},
            {"POST", "/api/bench/clear", [&services](const httplib::Request&, httplib::Response& response) {
                 services.examinations.clear();
                 answer_json(response, services.board.face_in_json());
             }}};
}

} // namespace coilward
