#include "serve/route.h"

#include "diagnosis/diagnosis.h"
#include "reading/examination_json.h"

#include <nlohmann/json.hpp>

namespace coilward {

std::string pattern_of(const std::string& path) {
    std::string pattern = path;
    const std::string number = "{number}";
    for (std::size_t at = pattern.find(number); at != std::string::npos; at = pattern.find(number))
        pattern.replace(at, number.size(), "([0-9]{1,9})");
    return pattern;
}

std::vector<Route> routes(const BenchServices& services) {
    std::vector<Route> all = bench_routes(services);
    for (auto* more : {pickup_routes, rules_routes, pairing_routes})
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
    answer_json(response, error.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace), status);
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
    } catch (const CannotDiagnose& error) {
        answer_error(response, 409, error.what());
    } catch (const std::exception& error) {
        answer_error(response, 500, error.what());
    }
}

} // namespace coilward
