#include "serve/connection.h"

#include "serve/picture.h"

#include <algorithm>
#include <array>

#include <netdb.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

bool is_ready(socket_t socket, short what, milliseconds at_most) {
    pollfd waiting{.fd = socket, .events = what, .revents = 0};
    return ::poll(&waiting, 1, static_cast<int>(std::max(at_most, milliseconds(0)).count())) > 0;
}

using AddressOf = int (*)(int, sockaddr*, socklen_t*);

void put_address(socket_t socket, AddressOf address_of, std::string& ip, int& port) {
    sockaddr_storage address{};
    socklen_t length = sizeof(address);
    std::array<char, NI_MAXHOST> host{};
    std::array<char, NI_MAXSERV> service{};
    auto* plain = reinterpret_cast<sockaddr*>(&address);
    if (address_of(socket, plain, &length) != 0) return;
    if (::getnameinfo(plain, length, host.data(), host.size(), service.data(), service.size(),
                      NI_NUMERICHOST | NI_NUMERICSERV) != 0)
        return;
    ip = host.data();
    port = std::stoi(service.data());
}

} // namespace

Connection::Connection(socket_t socket, ConnectionLimits limits)
    : socket_(socket), limits_(limits), began_(steady_clock::now()) {}

milliseconds Connection::left_to_ask() const {
    return limits_.to_ask - std::chrono::duration_cast<milliseconds>(steady_clock::now() - began_);
}

bool Connection::is_readable() const {
    return given_ < waiting_.size() || is_ready(socket_, POLLIN, left_to_ask());
}

/// False also where the client has hung up, so that nobody writes to it for ever.
bool Connection::is_writable() const {
    char next = 0;
    const ssize_t peeked = ::recv(socket_, &next, 1, MSG_PEEK | MSG_DONTWAIT);
    return peeked != 0 && is_ready(socket_, POLLOUT, limits_.to_take);
}

bool Connection::fill() {
    std::array<char, 4096> bytes{};
    const std::size_t most = std::min(bytes.size(), limits_.request_bytes - bytes_);
    if (most == 0 || !is_ready(socket_, POLLIN, left_to_ask())) return false;
    const ssize_t count = ::recv(socket_, bytes.data(), most, 0);
    if (count <= 0) return false;
    waiting_.assign(bytes.data(), static_cast<std::size_t>(count));
    given_ = 0;
    bytes_ += waiting_.size();
    return true;
}

ssize_t Connection::read(char* into, std::size_t size) {
    if (given_ == waiting_.size() && !fill()) return -1;
    const std::size_t count = std::min(size, waiting_.size() - given_);
    std::copy_n(waiting_.data() + given_, count, into);
    given_ += count;
    return static_cast<ssize_t>(count);
}

ssize_t Connection::write(const char* from, std::size_t size) {
    if (!is_ready(socket_, POLLOUT, limits_.to_take)) return -1;
    return ::send(socket_, from, size, MSG_NOSIGNAL | MSG_DONTWAIT);
}

void Connection::get_remote_ip_and_port(std::string& ip, int& port) const {
    put_address(socket_, ::getpeername, ip, port);
}

void Connection::get_local_ip_and_port(std::string& ip, int& port) const {
    put_address(socket_, ::getsockname, ip, port);
}

bool LimitedServer::process_and_close_socket(socket_t socket) {
    Connection connection(socket, limits_);
    bool closed = false;
    // Next to the program packing only costs time, and a stream must not wait for more to pack.
    const auto prepared = [&](httplib::Request& request) {
        request.headers.erase("Accept-Encoding");
        if (is_picture_type(request.get_header_value("Content-Type"))) connection.allow_more(longest_picture);
    };
    const bool answered = process_request(connection, true, closed, prepared);
    ::shutdown(socket, SHUT_WR);
    // What the client still sends is read for a moment: closing on unread bytes would take the answer back.
    std::array<char, 4096> rest{};
    for (int i = 0; i < 24 && is_ready(socket, POLLIN, milliseconds(200)); ++i)
        if (::recv(socket, rest.data(), rest.size(), MSG_DONTWAIT) <= 0) break;
    ::close(socket);
    return answered;
}

} // namespace coilward
