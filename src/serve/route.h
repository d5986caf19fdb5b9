#pragma once

#include "serve/bench_services.h"

#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

#include <httplib.h>

namespace coilward {

/// What is asked for is not there. One line.
struct NotFound : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// One operation of the HTTP interface (docs/openapi.json).
struct Route {
    std::string method; ///< "GET", "POST" or "PATCH"
    std::string path;   ///< "/api/pickups/{number}/attachments/{hash}"
    /// fills the response; may throw what answer_by() answers
    std::function<void(const httplib::Request&, httplib::Response&)> answer;
};

/// What most routes do.
using RouteWork = void (*)(const BenchServices&, const httplib::Request&, httplib::Response&);

/// A route's answer: the work with these services, which must outlive it.
std::function<void(const httplib::Request&, httplib::Response&)> with(const BenchServices&, RouteWork);

/// The path as a regular expression: "{number}" stands for a whole number, "{hash}" for 64 hexadecimal
/// digits.
std::string pattern_of(const std::string& path);

/// Pickups, their visits, readings and attached files.
std::vector<Route> pickup_routes(const BenchServices&);

/// The whole of a pickup of several coils.
std::vector<Route> joint_routes(const BenchServices&);

/// Plans, confirmations, comparisons and new coil models.
std::vector<Route> rewind_routes(const BenchServices&);

/// What the rules know.
std::vector<Route> rules_routes(const BenchServices&);

/// Meters, the examination, and the live stream.
std::vector<Route> bench_routes(const BenchServices&);

/// Letting devices in.
std::vector<Route> pairing_routes(const BenchServices&);

/// All of them.
std::vector<Route> routes(const BenchServices&);

/// The pickup that the path's first number names. Throws NotFound and HistoryError.
Pickup pickup_in(const History&, const httplib::Request&);

/// The pickup of that number. Throws NotFound, also where the words are no number, and HistoryError.
Pickup pickup_numbered(const History&, const std::string& number);

/// Answers with a document.
void answer_json(httplib::Response&, const std::string& document, int status = 200);

/// {"error": "…"}
void answer_error(httplib::Response&, int status, const std::string& says);

/// Carries out a route's work; what it throws becomes an error that says what is wrong.
void answer_by(const Route&, const httplib::Request&, httplib::Response&);

/// The name of the cookie that a paired device shows.
inline constexpr const char* device_cookie = "coilward_device";

} // namespace coilward
