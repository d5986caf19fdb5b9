#pragma once

#include <chrono>
#include <cstddef>
#include <string>

#include <httplib.h>

namespace coilward {

/// How much one client may ask of the server.
struct ConnectionLimits {
    std::chrono::milliseconds to_ask{10000};            ///< for the whole request, however it drips in
    std::size_t request_bytes = std::size_t{96} * 1024; ///< heading and body together
    std::chrono::milliseconds to_take{3000};            ///< for the client to take more of the answer
};

/// One request and its answer over one socket.
class Connection : public httplib::Stream {
public:
    /// Over a connected socket, which it does not close. The time to ask begins.
    Connection(socket_t socket, ConnectionLimits);

    /// False once the time to ask is over.
    bool is_readable() const override;

    /// False also where the client has hung up, so that nobody writes to it for ever.
    bool is_writable() const override;

    /// How many bytes of the request were put there; -1 where time or size are used up, or the client is
    /// gone.
    ssize_t read(char* into, std::size_t size) override;

    /// How many bytes of the answer the client took; -1 where it takes none in time.
    ssize_t write(const char* from, std::size_t size) override;

    /// Of the client; nothing is changed where it cannot be told.
    void get_remote_ip_and_port(std::string& ip, int& port) const override;

    /// Of this end, likewise.
    void get_local_ip_and_port(std::string& ip, int& port) const override;

    /// As it was given.
    socket_t socket() const override { return socket_; }

    /// So many bytes more than ConnectionLimits::request_bytes may come: a picture.
    void allow_more(std::size_t bytes) { limits_.request_bytes += bytes; }

private:
    std::chrono::milliseconds left_to_ask() const;
    bool fill();

    socket_t socket_;
    ConnectionLimits limits_;
    std::chrono::steady_clock::time_point began_;
    std::string waiting_; ///< read, but not yet handed on
    std::size_t given_ = 0;
    std::size_t bytes_ = 0;
};

/// The library's server with one request a connection, so that bytes behind a refused request are never
/// taken for another one, and with limits on the whole request.
class LimitedServer : public httplib::Server {
public:
    /// The limits hold for every connection.
    explicit LimitedServer(ConnectionLimits limits) : limits_(limits) {}

private:
    bool process_and_close_socket(socket_t) override;

    ConnectionLimits limits_;
};

} // namespace coilward
