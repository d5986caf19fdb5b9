#include "bench/simulated_port.h"

#include "bench/descriptor_transport.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <random>
#include <system_error>
#include <thread>
#include <utility>

#include <arpa/inet.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <termios.h>
#include <unistd.h>

namespace coilward {
namespace {

[[noreturn]] void refuse(std::string_view what) {
    throw TransportError(fmt::format(
        "a simulated meter cannot be had: {} failed: {}; try the other of --on terminal and --on tcp", what,
        std::generic_category().message(errno)));
}

int checked(int result, std::string_view what) {
    if (result < 0) refuse(what);
    return result;
}

/// Wakes a thread that waits in poll().
class Bell {
public:
    Bell() : descriptor_(checked(::eventfd(0, EFD_CLOEXEC), "eventfd")) {}

    int descriptor() const { return descriptor_.get(); }

    void ring() const {
        const std::uint64_t one = 1;
        [[maybe_unused]] const auto written = ::write(descriptor_.get(), &one, sizeof one);
    }

private:
    Descriptor descriptor_;
};

enum class Woken { ready, bell, time };

/// Waits until the descriptor can be read (POLLIN) or written (POLLOUT) or the bell rings, at most that long;
/// for ever below 0.
Woken wait_for(int descriptor, short events, const Bell& bell, int at_most_ms = -1) {
    std::array<pollfd, 2> waiting{{{descriptor, events, 0}, {bell.descriptor(), POLLIN, 0}}};
    int ready = -1;
    while ((ready = ::poll(waiting.data(), waiting.size(), at_most_ms)) < 0)
        if (errno != EINTR) return Woken::bell;
    if (ready == 0) return Woken::time;
    return waiting[1].revents == 0 ? Woken::ready : Woken::bell;
}

/// A host that does not read holds the meter up, but not the bell.
void write_all(int descriptor, std::string_view bytes, const Bell& bell) {
    while (!bytes.empty()) {
        ssize_t count = ::send(descriptor, bytes.data(), bytes.size(), MSG_NOSIGNAL);
        if (count < 0 && errno == ENOTSOCK) count = ::write(descriptor, bytes.data(), bytes.size());
        if (count < 0 && errno == EAGAIN && wait_for(descriptor, POLLOUT, bell) == Woken::bell) return;
        if (count <= 0 && errno != EINTR && errno != EAGAIN)
            return; // the host has gone; the next read says so
        bytes.remove_prefix(static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
    }
}

/// Speaks until the host is gone or the bell rings.
void converse(int descriptor, const SimulatedPeer& peer, const Bell& bell) {
    using std::chrono::steady_clock;
    auto due = steady_clock::now() + peer.every;
    for (;;) {
        const auto left = std::chrono::ceil<std::chrono::milliseconds>(due - steady_clock::now()).count();
        const Woken woken =
            wait_for(descriptor, POLLIN, bell, peer.unasked ? static_cast<int>(std::max(left, 0L)) : -1);
        if (woken == Woken::bell) return;
        if (woken == Woken::time) {
            due += peer.every;
            write_all(descriptor, peer.unasked(), bell);
            continue;
        }
        std::array<char, 512> buffer;
        const ssize_t count = ::read(descriptor, buffer.data(), buffer.size());
        if (count < 0 && (errno == EINTR || errno == EAGAIN)) continue;
        if (count <= 0) return;
        write_all(descriptor, peer.answer({buffer.data(), static_cast<std::size_t>(count)}), bell);
    }
}

class TerminalPort : public SimulatedPort {
public:
    explicit TerminalPort(SimulatedPeer peer)
        : master_(checked(::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC), "opening a pseudo-terminal")) {
        checked(::fcntl(master_.get(), F_SETFL, O_RDWR | O_NONBLOCK), "setting a pseudo-terminal");
        checked(::grantpt(master_.get()), "grantpt");
        checked(::unlockpt(master_.get()), "unlockpt");
        std::array<char, 128> path{};
        if (::ptsname_r(master_.get(), path.data(), path.size()) != 0) refuse("naming a pseudo-terminal");
        name_ = path.data();
        // Held open here too, so that the meter stays when one host closes it and another opens it.
        held_ = Descriptor(
            checked(::open(name_.c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC), "opening a pseudo-terminal"));
        termios settings{};
        checked(::tcgetattr(held_.get(), &settings), "reading its settings");
        ::cfmakeraw(&settings);
        checked(::tcsetattr(held_.get(), TCSANOW, &settings), "setting it raw");
        thread_ = std::thread([this, serving = std::move(peer)] { converse(master_.get(), serving, bell_); });
    }

    ~TerminalPort() override { unplug(); }

    TerminalPort(const TerminalPort&) = delete;
    TerminalPort& operator=(const TerminalPort&) = delete;

    std::string name() const override { return name_; }

    void unplug() final {
        if (!thread_.joinable()) return;
        bell_.ring();
        thread_.join();
        held_.close();
        master_.close();
    }

private:
    Descriptor master_;
    Descriptor held_;
    std::string name_;
    Bell bell_;
    std::thread thread_;
};

class LoopbackPort : public SimulatedPort {
public:
    LoopbackPort(SimulatedPeer peer, std::uint16_t number)
        : listener_(checked(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0), "opening a socket")) {
        const int on = 1; // so that it may come back at the same number
        checked(::setsockopt(listener_.get(), SOL_SOCKET, SO_REUSEADDR, &on, sizeof on), "setting a socket");
        sockaddr_in address{};
        address.sin_family = AF_INET;
        address.sin_port = htons(number);
        address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        socklen_t size = sizeof address;
        auto* generic = reinterpret_cast<sockaddr*>(&address); // NOLINT: the socket interface is made so
        checked(::bind(listener_.get(), generic, size), "binding to the loopback address");
        checked(::listen(listener_.get(), 1), "listening");
        checked(::getsockname(listener_.get(), generic, &size), "asking for the port number");
        name_ = fmt::format("tcp://127.0.0.1:{}", ntohs(address.sin_port));
        thread_ = std::thread([this, serving = std::move(peer)] { serve(serving); });
    }

    ~LoopbackPort() override { unplug(); }

    LoopbackPort(const LoopbackPort&) = delete;
    LoopbackPort& operator=(const LoopbackPort&) = delete;

    std::string name() const override { return name_; }

    void unplug() final {
        if (!thread_.joinable()) return;
        bell_.ring();
        thread_.join();
        listener_.close();
    }

private:
    void serve(const SimulatedPeer& peer) {
        while (wait_for(listener_.get(), POLLIN, bell_) == Woken::ready) {
            const Descriptor host(::accept4(listener_.get(), nullptr, nullptr, SOCK_CLOEXEC | SOCK_NONBLOCK));
            if (host.is_open()) converse(host.get(), peer, bell_);
        }
    }

    Descriptor listener_;
    std::string name_;
    Bell bell_;
    std::thread thread_;
};

} // namespace

SimulatedPeer peer_of(SimulatedMeter meter) {
    const auto kept = std::make_shared<SimulatedMeter>(std::move(meter));
    SimulatedPeer peer;
    peer.answer = [kept](std::string_view bytes) { return kept->answer(bytes); };
    if (kept->streams()) peer.unasked = [kept] { return kept->unasked(); };
    return peer;
}

SimulatedPeer over_a_bad_line(const SimulatedPeer& peer, double share, std::uint64_t seed) {
    const auto spoil = [share, random = std::make_shared<std::mt19937_64>(seed)](const std::string& bytes) {
        std::uniform_real_distribution<double> chance(0.0, 1.0);
        std::string spoiled;
        for (const char byte : bytes) {
            const bool hit = chance(*random) < share;
            const auto harm = hit ? (*random)() % 3 : 3;
            if (harm == 0) spoiled += static_cast<char>(byte ^ static_cast<char>(1U << ((*random)() % 8)));
            if (harm == 1) spoiled += static_cast<char>((*random)());
            if (harm == 1 || harm == 3) spoiled += byte;
        }
        return spoiled;
    };
    SimulatedPeer bad = peer;
    bad.answer = [spoil, answer = peer.answer](std::string_view bytes) { return spoil(answer(bytes)); };
    if (peer.unasked) bad.unasked = [spoil, unasked = peer.unasked] { return spoil(unasked()); };
    return bad;
}

std::unique_ptr<SimulatedPort> simulate_on_terminal(SimulatedPeer peer) {
    return std::make_unique<TerminalPort>(std::move(peer));
}

std::unique_ptr<SimulatedPort> simulate_on_terminal(SimulatedMeter meter) {
    return simulate_on_terminal(peer_of(std::move(meter)));
}

std::unique_ptr<SimulatedPort> simulate_on_tcp(SimulatedPeer peer, std::uint16_t number) {
    return std::make_unique<LoopbackPort>(std::move(peer), number);
}

std::unique_ptr<SimulatedPort> simulate_on_tcp(SimulatedMeter meter) {
    return simulate_on_tcp(peer_of(std::move(meter)));
}

} // namespace coilward
