#include "serve/route.h"

#include <fstream>
#include <set>
#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

nlohmann::json document() {
    std::ifstream file(COILWARD_SOURCE_DIR "/docs/openapi.json");
    return nlohmann::json::parse(file);
}

std::set<std::string> documented() {
    std::set<std::string> operations;
    const auto whole = document();
    for (const auto& [path, methods] : whole.at("paths").items())
        for (const auto& [method, operation] : methods.items())
            if (method != "parameters") operations.insert(method + " " + path);
    return operations;
}

std::set<std::string> served() {
    const Rules rules;
    Broadcast stream;
    MeterDesk meters({}, stream);
    ExaminationBoard board(stream);
    ExaminationDesk examinations(
        rules, []() -> History { throw HistoryError("none"); }, meters, board);
    const BenchServices services{.rules = rules,
                                 .open_history = {},
                                 .stream = stream,
                                 .meters = meters,
                                 .board = board,
                                 .examinations = examinations};
    std::set<std::string> operations;
    for (const Route& route : routes(services)) {
        std::string method = route.method;
        for (char& c : method)
            c = static_cast<char>(c - 'A' + 'a');
        operations.insert(method + " " + route.path);
    }
    return operations;
}

TEST(OpenApi, DescribesEveryRouteAndNoOther) {
    EXPECT_EQ(documented(), served());
}

TEST(OpenApi, EveryReferenceLeadsSomewhere) {
    const auto whole = document();
    const auto flat = whole.flatten();
    int references = 0;
    for (const auto& [pointer, value] : flat.items()) {
        if (!pointer.ends_with("/$ref")) continue;
        ++references;
        const std::string target = value.get<std::string>().substr(1);
        EXPECT_TRUE(whole.contains(nlohmann::json::json_pointer(target))) << target;
    }
    EXPECT_GT(references, 5);
}

TEST(OpenApi, EveryChangeSaysItsBodyAndItsRefusals) {
    const auto whole = document();
    int changes = 0;
    for (const auto& [path, methods] : whole.at("paths").items())
        for (const auto& [method, operation] : methods.items()) {
            if (method != "post" && method != "patch") continue;
            ++changes;
            EXPECT_TRUE(operation.contains("requestBody")) << path;
            EXPECT_TRUE(operation.at("responses").contains("default")) << path;
        }
    EXPECT_GT(changes, 5);
}

} // namespace
} // namespace coilward
