#include "serve/route.h"

#include "diagnosis/diagnosis.h"
#include "history/correction.h"
#include "reading/examination_json.h"
#include "reading/json_line.h"
#include "rewind/quantity_words.h"
#include "serve/form_words.h"
#include "serve/picture.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {

std::function<void(const httplib::Request&, httplib::Response&)> with(const BenchServices& services,
                                                                      RouteWork work) {
    return [&services, work](const httplib::Request& request, httplib::Response& response) {
        work(services, request, response);
    };
}

std::string pattern_of(const std::string& path) {
    std::string pattern = path;
    const auto replace = [&](const std::string& name, const char* expression) {
        for (std::size_t at = pattern.find(name); at != std::string::npos; at = pattern.find(name))
            pattern.replace(at, name.size(), expression);
    };
    replace("{number}", "([0-9]{1,9})");
    replace("{hash}", "([0-9a-f]{64})");
    return pattern;
}

Pickup pickup_numbered(const History& history, const std::string& number) {
    const bool digits =
        !number.empty() && number.size() <= 9 && number.find_first_not_of("0123456789") == std::string::npos;
    if (digits)
        if (auto pickup = history.pickup(std::stoll(number))) return *pickup;
    throw NotFound(fmt::format("there is no pickup {}", number));
}

Pickup pickup_in(const History& history, const httplib::Request& request) {
    return pickup_numbered(history, request.matches[1].str());
}

std::vector<Route> routes(const BenchServices& services) {
    std::vector<Route> all = bench_routes(services);
    for (auto* more : {pickup_routes, joint_routes, rewind_routes, rules_routes, pairing_routes})
        for (Route& route : more(services))
            all.push_back(std::move(route));
    return all;
}

void answer_json(httplib::Response& response, const std::string& document, int status) {
    response.status = status;
    response.set_header("Cache-Control", "no-store");
    response.set_content(document, "application/json");
}

void answer_error(httplib::Response& response, int status, const std::string& says) {
    const nlohmann::json error{{"error", says}};
    answer_json(response, on_one_line(error), status);
}

void answer_by(const Route& route, const httplib::Request& request, httplib::Response& response) {
    try {
        route.answer(request, response);
    } catch (const BadDocument& error) {
        answer_error(response, 400, error.what());
    } catch (const NotFound& error) {
        answer_error(response, 404, error.what());
    } catch (const CannotExamine& error) {
        answer_error(response, 409, error.what());
    } catch (const BadWords& error) {
        answer_error(response, 400, without_dashes(error.what()));
    } catch (const NotAPicture& error) {
        answer_error(response, 415, error.what());
    } catch (const NoCorrection& error) {
        answer_error(response, 409, error.what());
    } catch (const CannotDiagnose& error) {
        answer_error(response, 409, error.what());
    } catch (const std::exception& error) {
        answer_error(response, 500, error.what());
    }
}

} // namespace coilward
