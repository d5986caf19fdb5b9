#pragma once

#include <array>
#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

#include <arpa/inet.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

namespace coilward::testing {

/// A connection that sends exactly what it is told.
class RawClient {
public:
    explicit RawClient(int port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
        sockaddr_in address{};
        address.sin_family = AF_INET;
        address.sin_port = htons(static_cast<std::uint16_t>(port));
        address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        if (::connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof(address)) != 0)
            throw std::runtime_error("cannot connect");
    }

    ~RawClient() {
        if (socket_ >= 0) ::close(socket_);
    }

    RawClient(RawClient&& other) noexcept : socket_(std::exchange(other.socket_, -1)) {}

    RawClient& operator=(RawClient&&) = delete;
    RawClient(const RawClient&) = delete;
    RawClient& operator=(const RawClient&) = delete;

    void send(std::string_view bytes) const {
        while (!bytes.empty()) {
            const ssize_t count = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
            if (count <= 0) return; // the server hung up: its right
            bytes.remove_prefix(static_cast<std::size_t>(count));
        }
    }

    void finish_sending() const { ::shutdown(socket_, SHUT_WR); }

    /// All that comes until the server hangs up, or `until` is part of it, or nothing comes for so long.
    std::string answer(std::string_view until = {}, int patience_ms = 15000) const {
        std::string all;
        std::array<char, 4096> bytes{};
        pollfd waiting{.fd = socket_, .events = POLLIN, .revents = 0};
        while (::poll(&waiting, 1, patience_ms) > 0) {
            const ssize_t count = ::recv(socket_, bytes.data(), bytes.size(), 0);
            if (count <= 0) break;
            all.append(bytes.data(), static_cast<std::size_t>(count));
            if (!until.empty() && all.find(until) != std::string::npos) break;
        }
        return all;
    }

private:
    int socket_;
};

/// The status of an answer; 0 where there was none.
inline int status_of(const std::string& answer) {
    return answer.starts_with("HTTP/1.") && answer.size() > 12 ? std::atoi(answer.c_str() + 9) : 0;
}

} // namespace coilward::testing
