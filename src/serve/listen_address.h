#pragma once

#include <string>

namespace coilward {

/// Where the server listens.
struct ListenAddress {
    std::string host;     ///< an IP address, without brackets
    int port = 0;         ///< 0: the machine chooses
    bool loopback = true; ///< heard by this machine only
};

/// Reads "127.0.0.1:8420", "[::1]:8420", "localhost:8420" or an address alone, which gets the usual port.
/// Throws std::invalid_argument with one line.
ListenAddress listen_address_from_text(const std::string&);

/// "127.0.0.1:8420" or "[::1]:8420", as a browser names it.
std::string authority_of(const ListenAddress&);

/// Where an address does not say.
inline constexpr int usual_port = 8420;

} // namespace coilward
