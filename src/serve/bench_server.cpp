#include "serve/bench_server.h"

#include "serve/connection_threads.h"
#include "serve/gate.h"
#include "serve/page_asset.h"
#include "serve/picture.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include <fmt/format.h>
#include <sys/socket.h>

namespace coilward {
namespace {

constexpr std::size_t most_connections = 320; // streams are fewer (Broadcast), so that requests get through

/// With every answer, also with refusals: nothing from elsewhere, nothing inline, in no frame.
httplib::Headers safe_headers() {
    return {{"Content-Security-Policy",
             "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; "
             "form-action 'none'; base-uri 'none'; frame-ancestors 'none'"},
            {"X-Content-Type-Options", "nosniff"},
            {"X-Frame-Options", "DENY"},
            {"Referrer-Policy", "no-referrer"},
            {"Cross-Origin-Opener-Policy", "same-origin"},
            {"Cross-Origin-Resource-Policy", "same-origin"},
            {"Permissions-Policy", "camera=(), geolocation=(), microphone=()"}};
}

std::optional<std::string> header(const httplib::Request& request, const char* name) {
    if (!request.has_header(name)) return std::nullopt;
    return request.get_header_value(name);
}

RequestFacts facts_of(const httplib::Request& request) {
    return {.method = request.method,
            .hosts = request.get_header_value_count("Host"),
            .host = request.get_header_value("Host"),
            .origin = header(request, "Origin"),
            .fetch_site = header(request, "Sec-Fetch-Site"),
            .content_type = request.get_header_value("Content-Type"),
            .has_length = request.has_header("Content-Length"),
            .length = request.get_header_value<std::uint64_t>("Content-Length"),
            .has_other_encoding =
                request.has_header("Transfer-Encoding") || request.has_header("Content-Encoding")};
}

/// What a device that is not yet paired may see.
bool is_for_pairing(const std::string& path) {
    constexpr std::array<std::string_view, 5> paths{"/pair", "/pair.js", "/style.css", "/icon.svg",
                                                    "/api/pair"};
    return std::ranges::find(paths, path) != paths.end();
}

/// The value of the device's cookie among "a=b; c=d"; empty where it has none.
std::string device_in(const std::string& cookies) {
    const std::string mark = std::string(device_cookie) + "=";
    for (std::size_t from = 0; from < cookies.size();) {
        const std::size_t to = std::min(cookies.find(';', from), cookies.size());
        const std::string one = cookies.substr(from, to - from);
        if (one.starts_with(mark)) return one.substr(mark.size());
        from = cookies.find_first_not_of("; ", to);
    }
    return {};
}

/// The path as a regular expression that matches nothing else.
std::string literally(std::string_view path) {
    std::string pattern;
    for (const char c : path)
        pattern += c == '.' ? std::string("[.]") : std::string(1, c);
    return pattern;
}

/// What the library refuses before any route is asked.
std::string words_for(int status) {
    switch (status) {
    case 400:
        return "this is no whole HTTP request";
    case 413:
    case 414:
        return "this is too much for one request";
    default:
        return "there is nothing here";
    }
}

void answer_asset(const PageAsset& asset, const httplib::Request& request, httplib::Response& response) {
    response.set_header("Cache-Control", "no-cache");
    response.set_header("ETag", std::string(asset.tag));
    if (request.get_header_value("If-None-Match") == asset.tag) {
        response.status = 304;
        return;
    }
    response.set_content(asset.bytes.data(), asset.bytes.size(), std::string(asset.media_type));
}

} // namespace

BenchServer::BenchServer(ListenAddress address, const BenchServices& services, ConnectionLimits limits)
    : address_(std::move(address)), services_(services), server_(limits) {
    server_.new_task_queue = [] { return new ConnectionThreads(most_connections); };
    server_.set_payload_max_length(longest_picture); // of anything else the gate allows less
    server_.set_default_headers(safe_headers());
    server_.set_tcp_nodelay(true);
    server_.set_socket_options([](socket_t socket) { // without SO_REUSEPORT, by which another could join us
        const int yes = 1;
        ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof(yes));
    });
    server_.set_pre_routing_handler([this](const httplib::Request& request, httplib::Response& response) {
        return refuse(request, response) ? httplib::Server::HandlerResponse::Handled
                                         : httplib::Server::HandlerResponse::Unhandled;
    });
    server_.set_error_handler([](const httplib::Request&, httplib::Response& response) {
        if (response.body.empty()) answer_error(response, response.status, words_for(response.status));
    });
    server_.set_logger([this](const httplib::Request& request, const httplib::Response& response) {
        if (response.status >= 400) services_.listener.refused(request.method, request.path, response.status);
    });
    put_assets();
    put_routes();
    const int port = address_.port == 0 ? server_.bind_to_any_port(address_.host)
                     : server_.bind_to_port(address_.host, address_.port) ? address_.port
                                                                          : -1;
    if (port < 0)
        throw std::runtime_error(fmt::format("{}: cannot listen there; is another program on that port? "
                                             "Choose one by --listen",
                                             authority_of(address_)));
    address_.port = port;
}

void BenchServer::put_assets() {
    for (const PageAsset& asset : page_assets())
        server_.Get(literally(asset.path),
                    [&asset](const httplib::Request& request, httplib::Response& response) {
                        answer_asset(asset, request, response);
                    });
}

void BenchServer::put_routes() {
    for (const Route& route : routes(services_)) {
        const auto answer = [route](const httplib::Request& request, httplib::Response& response) {
            answer_by(route, request, response);
        };
        const std::string pattern = pattern_of(route.path);
        if (route.method == "GET") server_.Get(pattern, answer);
        if (route.method == "POST") server_.Post(pattern, answer);
        if (route.method == "PATCH") server_.Patch(pattern, answer);
    }
}

bool BenchServer::knows_device(const httplib::Request& request) const {
    return !services_.pairing || services_.pairing->knows(device_in(request.get_header_value("Cookie")));
}

bool BenchServer::refuse(const httplib::Request& request, httplib::Response& response) const {
    if (const auto refusal = refusal_of(facts_of(request), address_)) {
        answer_error(response, refusal->status, refusal->says);
        return true;
    }
    if (is_for_pairing(request.path) || knows_device(request)) return false;
    if (request.path == "/") {
        response.set_redirect("/pair", 303);
        return true;
    }
    answer_error(response, 401,
                 "this device is not paired; open / and type the code that the terminal shows");
    return true;
}

void BenchServer::run() {
    server_.listen_after_bind();
}

void BenchServer::stop() {
    services_.stream.end();
    server_.stop();
}

} // namespace coilward
