#include "serve/route.h"
#include "serve/rules_json.h"

namespace coilward {

std::vector<Route> rules_routes(const BenchServices& services) {
    const auto with = [&services](auto to_json) {
        return [&services, to_json](const httplib::Request&, httplib::Response& response) {
            answer_json(response, to_json(services.rules));
        };
    };
    return {{"GET", "/api/coil-models", with(coil_models_to_json)},
            {"GET", "/api/pickup-types", with(pickup_types_to_json)},
            {"GET", "/api/faults", with(faults_to_json)}};
}

} // namespace coilward
