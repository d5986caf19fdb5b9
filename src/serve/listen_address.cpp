#include "serve/listen_address.h"

#include <array>
#include <charconv>
#include <stdexcept>

#include <arpa/inet.h>
#include <fmt/format.h>

namespace coilward {
namespace {

[[noreturn]] void refuse(const std::string& text) {
    throw std::invalid_argument(fmt::format("\"{}\" is no address to listen on; write ADDRESS:PORT, as "
                                            "127.0.0.1:{} or [::1]:{}",
                                            text, usual_port, usual_port));
}

int port_in(const std::string& digits, const std::string& text) {
    int port = -1;
    const auto* end = digits.data() + digits.size();
    const auto [stop, error] = std::from_chars(digits.data(), end, port);
    if (error != std::errc() || stop != end || port < 0 || port > 65535) refuse(text);
    return port;
}

bool is_loopback(const std::string& host, const std::string& text) {
    std::array<unsigned char, sizeof(in6_addr)> bytes{};
    if (::inet_pton(AF_INET, host.c_str(), bytes.data()) == 1) return bytes[0] == 127;
    if (::inet_pton(AF_INET6, host.c_str(), bytes.data()) != 1) refuse(text);
    const in6_addr loopback = IN6ADDR_LOOPBACK_INIT;
    return std::equal(bytes.begin(), bytes.end(), loopback.s6_addr);
}

} // namespace

ListenAddress listen_address_from_text(const std::string& text) {
    ListenAddress address{.host = text, .port = usual_port};
    if (text.starts_with('[')) {
        const auto closing = text.find(']');
        if (closing == std::string::npos) refuse(text);
        address.host = text.substr(1, closing - 1);
        if (const auto rest = text.substr(closing + 1); rest.starts_with(':'))
            address.port = port_in(rest.substr(1), text);
        else if (!rest.empty())
            refuse(text);
    } else if (const auto colon = text.find(':'); colon != std::string::npos && text.rfind(':') == colon) {
        address.host = text.substr(0, colon);
        address.port = port_in(text.substr(colon + 1), text);
    }
    if (address.host == "localhost") address.host = "127.0.0.1";
    address.loopback = is_loopback(address.host, text);
    return address;
}

std::string authority_of(const ListenAddress& address) {
    const bool version_6 = address.host.find(':') != std::string::npos;
    return fmt::format(fmt::runtime(version_6 ? "[{}]:{}" : "{}:{}"), address.host, address.port);
}

} // namespace coilward
