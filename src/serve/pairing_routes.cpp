#include "reading/examination_json.h"
#include "reading/json_text.h"
#include "serve/route.h"

#include <fmt/format.h>

namespace coilward {
namespace {

void pair(const BenchServices& services, const httplib::Request& request, httplib::Response& response) {
    const auto document = parse_json(request.body);
    const std::string code = text_at(member({&document, ""}, "code"), "the code that the terminal shows");
    if (!services.pairing) throw NotFound("there is nothing to pair: only this machine is listened to");
    const Pairing::Answer answer = services.pairing->try_code(code);
    switch (answer.outcome) {
    case Pairing::Outcome::paired:
        response.set_header("Set-Cookie", fmt::format("{}={}; HttpOnly; SameSite=Strict; Path=/",
                                                      device_cookie, answer.device));
        return answer_json(response, "{\"paired\":true}");
    case Pairing::Outcome::wrong:
        return answer_error(response, 403, "this is not the code; the terminal shows it");
    case Pairing::Outcome::too_many:
        response.set_header("Retry-After", "60");
        return answer_error(response, 429, "too many wrong codes; wait a minute and take the new code");
    }
}

} // namespace

std::vector<Route> pairing_routes(const BenchServices& services) {
    return {{"POST", "/api/pair", [&services](const httplib::Request& request, httplib::Response& response) {
                 pair(services, request, response);
             }}};
}

} // namespace coilward
