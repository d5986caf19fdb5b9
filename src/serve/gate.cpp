#include "serve/gate.h"

#include "serve/picture.h"

#include <array>

#include <arpa/inet.h>
#include <fmt/format.h>

namespace coilward {
namespace {

bool is_address(const std::string& host) {
    std::array<unsigned char, sizeof(in6_addr)> bytes{};
    if (host.starts_with('[') && host.ends_with(']'))
        return ::inet_pton(AF_INET6, host.substr(1, host.size() - 2).c_str(), bytes.data()) == 1;
    return ::inet_pton(AF_INET, host.c_str(), bytes.data()) == 1;
}

/// On loopback only its own names; beyond it any address of the machine, but no name, which somebody else's
/// name server could point here.
bool is_our_host(const std::string& authority, const ListenAddress& listening) {
    const std::string port = fmt::format(":{}", listening.port);
    if (!authority.ends_with(port)) return false;
    const std::string host = authority.substr(0, authority.size() - port.size());
    if (host == "localhost") return true;
    return listening.loopback ? authority == authority_of(listening) : is_address(host);
}

std::string media_type(const std::string& content_type) {
    return content_type.substr(0, content_type.find(';'));
}

} // namespace

bool may_change(const std::string& method) {
    return method == "POST" || method == "PATCH";
}

std::optional<Refusal> refusal_of(const RequestFacts& request, const ListenAddress& listening) {
    const bool changes = may_change(request.method);
    if (!changes && request.method != "GET" && request.method != "HEAD")
        return Refusal{405, "the methods here are GET, HEAD, POST and PATCH"};
    if (request.hosts != 1 || !is_our_host(request.host, listening))
        return Refusal{421, fmt::format("this server answers to its own address only: http://{}/",
                                        authority_of(listening))};
    if (request.origin && *request.origin != "http://" + request.host)
        return Refusal{403, "a page of another origin may not use this server"};
    if (request.fetch_site && *request.fetch_site != "same-origin" && *request.fetch_site != "none")
        return Refusal{403, "a page of another site may not use this server; type the address instead"};
    if (request.has_other_encoding)
        return Refusal{415, "a body comes as it is, with its length in Content-Length"};
    if (changes && !request.has_length) return Refusal{411, "say the length of the body in Content-Length"};
    const std::string type = media_type(request.content_type);
    const bool picture = is_picture_type(type); // no form of another page can send that, either
    if (changes && type != "application/json" && !picture)
        return Refusal{415, "a change comes as a body of the type application/json"};
    if (changes && request.length > (picture ? longest_picture : longest_document))
        return Refusal{413, "this is too much for one request"};
    return std::nullopt;
}

} // namespace coilward
