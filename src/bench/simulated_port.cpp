#include "bench/simulated_port.h"

#include "bench/descriptor_transport.h"

#include <array>
#include <cerrno>
#include <cstdlib>
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
    throw TransportError(fmt::format("a simulated meter cannot be had: {} failed: {}", what,
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

/// True when `descriptor` can be read, false when the bell rang first.
bool wait_for(int descriptor, const Bell& bell) {
    std::array<pollfd, 2> waiting{{{descriptor, POLLIN, 0}, {bell.descriptor(), POLLIN, 0}}};
    while (::poll(waiting.data(), waiting.size(), -1) < 0)
        if (errno != EINTR) return false;
    return waiting[1].revents == 0;
}

void write_all(int descriptor, std::string_view bytes) {
    while (!bytes.empty()) {
        ssize_t count = ::send(descriptor, bytes.data(), bytes.size(), MSG_NOSIGNAL);
        if (count < 0 && errno == ENOTSOCK) count = ::write(descriptor, bytes.data(), bytes.size());
        if (count <= 0 && errno != EINTR) return; // the host has gone; the next read says so
        bytes.remove_prefix(static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
    }
}

/// Answers until the host is gone or the bell rings.
void converse(int descriptor, SimulatedMeter& meter, const Bell& bell) {
    while (wait_for(descriptor, bell)) {
        std::array<char, 512> buffer;
        const ssize_t count = ::read(descriptor, buffer.data(), buffer.size());
        if (count < 0 && errno == EINTR) continue;
        if (count <= 0) return;
        write_all(descriptor, meter.answer({buffer.data(), static_cast<std::size_t>(count)}));
    }
}

class TerminalPort : public SimulatedPort {
public:
    explicit TerminalPort(SimulatedMeter meter)
        : master_(checked(::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC), "opening a pseudo-terminal")) {
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
        thread_ = std::thread(
            [this, serving = std::move(meter)]() mutable { converse(master_.get(), serving, bell_); });
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
    explicit LoopbackPort(SimulatedMeter meter)
        : listener_(checked(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0), "opening a socket")) {
        sockaddr_in address{};
        address.sin_family = AF_INET;
        address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        socklen_t size = sizeof address;
        auto* generic = reinterpret_cast<sockaddr*>(&address); // NOLINT: the socket interface is made so
        checked(::bind(listener_.get(), generic, size), "binding to the loopback address");
        checked(::listen(listener_.get(), 1), "listening");
        checked(::getsockname(listener_.get(), generic, &size), "asking for the port number");
        name_ = fmt::format("tcp://127.0.0.1:{}", ntohs(address.sin_port));
        thread_ = std::thread([this, serving = std::move(meter)]() mutable { serve(serving); });
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
    void serve(SimulatedMeter& meter) {
        while (wait_for(listener_.get(), bell_)) {
            const Descriptor host(::accept4(listener_.get(), nullptr, nullptr, SOCK_CLOEXEC));
            if (host.is_open()) converse(host.get(), meter, bell_);
        }
    }

    Descriptor listener_;
    std::string name_;
    Bell bell_;
    std::thread thread_;
};

} // namespace

std::unique_ptr<SimulatedPort> simulate_on_terminal(SimulatedMeter meter) {
    return std::make_unique<TerminalPort>(std::move(meter));
}

std::unique_ptr<SimulatedPort> simulate_on_tcp(SimulatedMeter meter) {
    return std::make_unique<LoopbackPort>(std::move(meter));
}

} // namespace coilward
