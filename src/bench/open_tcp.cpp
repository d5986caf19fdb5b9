#include "bench/descriptor_transport.h"

#include <cerrno>
#include <memory>
#include <system_error>

#include <fmt/format.h>
#include <netdb.h>
#include <netinet/tcp.h>
#include <poll.h>
#include <sys/socket.h>

namespace coilward {
namespace {

constexpr int connect_within_ms = 5000;

using Addresses = std::unique_ptr<addrinfo, decltype(&::freeaddrinfo)>;

[[noreturn]] void refuse(const std::string& host, const std::string& service, const std::string& why) {
    throw TransportError(fmt::format("tcp://{}:{}: {}; check the address and that the meter listens there",
                                     host, service, why));
}

Addresses addresses_of(const std::string& host, const std::string& service) {
    addrinfo wanted{};
    wanted.ai_family = AF_UNSPEC;
    wanted.ai_socktype = SOCK_STREAM;
    wanted.ai_flags = AI_NUMERICSERV;
    addrinfo* found = nullptr;
    if (const int error = ::getaddrinfo(host.c_str(), service.c_str(), &wanted, &found); error != 0)
        refuse(host, service, ::gai_strerror(error));
    return {found, &::freeaddrinfo};
}

/// Waits until a connection is made; the error number, 0 for none.
int finish_connecting(int descriptor) {
    pollfd poller{.fd = descriptor, .events = POLLOUT, .revents = 0};
    const int ready = ::poll(&poller, 1, connect_within_ms);
    if (ready == 0) return ETIMEDOUT;
    if (ready < 0) return errno;
    int error = 0;
    socklen_t size = sizeof error;
    ::getsockopt(descriptor, SOL_SOCKET, SO_ERROR, &error, &size);
    return error;
}

/// An open connection, or the error number.
int connect_to(const addrinfo& address, Descriptor& connection) {
    connection =
        Descriptor(::socket(address.ai_family, address.ai_socktype | SOCK_NONBLOCK | SOCK_CLOEXEC, 0));
    if (!connection.is_open()) return errno;
    const int on = 1;
    ::setsockopt(connection.get(), IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
    ::setsockopt(connection.get(), SOL_SOCKET, SO_KEEPALIVE, &on, sizeof on);
    if (::connect(connection.get(), address.ai_addr, address.ai_addrlen) == 0) return 0;
    return errno == EINPROGRESS ? finish_connecting(connection.get()) : errno;
}

} // namespace

std::unique_ptr<Transport> open_tcp(const std::string& host, const std::string& service) {
    const Addresses addresses = addresses_of(host, service);
    int error = 0;
    for (const addrinfo* address = addresses.get(); address; address = address->ai_next) {
        Descriptor connection;
        error = connect_to(*address, connection);
        if (error == 0) return std::make_unique<DescriptorTransport>(std::move(connection), true);
    }
    refuse(host, service, std::generic_category().message(error));
}

} // namespace coilward
