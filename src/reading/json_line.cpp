#include "reading/json_line.h"

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

constexpr int no_line_breaks = -1;

} // namespace

std::string on_one_line(const nlohmann::json& document) {
    return document.dump(no_line_breaks, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string on_one_line(const nlohmann::ordered_json& document) {
    return document.dump(no_line_breaks, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
}

} // namespace coilward
