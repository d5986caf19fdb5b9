#pragma once

#include "serve/listen_address.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

namespace coilward {

/// What a request says of itself, before any of its body is read.
struct RequestFacts {
    std::string method;                    ///< "GET"
    std::size_t hosts = 0;                 ///< how many Host fields; one is right
    std::string host;                      ///< Host, with its port
    std::optional<std::string> origin;     ///< Origin: a browser sends it with whatever another page starts
    std::optional<std::string> fetch_site; ///< Sec-Fetch-Site (W3C Fetch Metadata Request Headers)
    std::string content_type;              ///< Content-Type; empty where there is none
    bool has_length = false;               ///< Content-Length...
    std::uint64_t length = 0;              ///< ...in bytes
    bool has_other_encoding = false;       ///< Transfer-Encoding or Content-Encoding
};

/// Why a request is refused.
struct Refusal {
    int status = 0;   ///< of HTTP: 403, 405, 411, 413, 415 or 421
    std::string says; ///< one line, for a person
};

/// The longest body that is no picture.
inline constexpr std::size_t longest_document = std::size_t{64} * 1024;

/// True for the methods that may change something.
bool may_change(const std::string& method);

/// Refuses what does not come from a page of this very server: another host name, which a name that was
/// rebound to this machine would have; another origin; a body that a plain form of another page can send.
/// Programs that are no browser send neither Origin nor Sec-Fetch-Site and pass. Nothing where it may pass.
std::optional<Refusal> refusal_of(const RequestFacts&, const ListenAddress& listening);

} // namespace coilward
