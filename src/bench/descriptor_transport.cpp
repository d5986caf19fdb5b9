#include "bench/descriptor_transport.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <system_error>
#include <utility>

#include <fmt/format.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

/// A write that a live meter does not take for so long is a lost one: no command is longer than a few lines.
constexpr milliseconds longest_write{5000};

/// Waits for the events; false when the time is over. An interrupted wait goes on.
bool wait_for(int descriptor, short events, milliseconds at_most) {
    const auto deadline = steady_clock::now() + at_most;
    for (;;) {
        const auto left = std::chrono::ceil<milliseconds>(deadline - steady_clock::now());
        pollfd poller{.fd = descriptor, .events = events, .revents = 0};
        const int ready = ::poll(&poller, 1, static_cast<int>(std::max(left, milliseconds(0)).count()));
        if (ready > 0) return true;
        if (ready == 0) return false;
        if (errno != EINTR)
            throw TransportError(fmt::format("waiting for the meter failed: {}; open the port again",
                                             std::generic_category().message(errno)));
    }
}

bool is_loss(int error) {
    return error == EIO || error == ENXIO || error == ENODEV || error == EPIPE || error == ECONNRESET ||
           error == ECONNABORTED || error == ETIMEDOUT || error == EHOSTUNREACH || error == ENETDOWN;
}

bool is_not_yet(int error) {
    return error == EAGAIN || error == EINTR;
}

/// One write. To a closed socket it must give an error, not the signal that ends the program.
ssize_t write_some(int descriptor, std::string_view bytes) {
    const ssize_t sent = ::send(descriptor, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent >= 0 || errno != ENOTSOCK) return sent;
    return ::write(descriptor, bytes.data(), bytes.size());
}

} // namespace

Descriptor& Descriptor::operator=(Descriptor&& other) noexcept {
    if (this != &other) {
        close();
        number_ = other.release();
    }
    return *this;
}

int Descriptor::release() {
    return std::exchange(number_, -1);
}

void Descriptor::close() {
    if (number_ >= 0) ::close(number_);
    number_ = -1;
}

DescriptorTransport::DescriptorTransport(Descriptor descriptor, bool starts_at_a_frame)
    : descriptor_(std::move(descriptor)), starts_at_a_frame_(starts_at_a_frame) {}

/// A lost descriptor is closed at once: held open, it keeps a USB adapter from coming back under its own
/// name.
LinkOutcome DescriptorTransport::lost() {
    descriptor_.close();
    return LinkOutcome::unplugged;
}

Received DescriptorTransport::read(milliseconds at_most) {
    if (!descriptor_.is_open()) return {.outcome = LinkOutcome::unplugged, .bytes = {}};
    if (!wait_for(descriptor_.get(), POLLIN, at_most)) return {.outcome = LinkOutcome::timeout, .bytes = {}};
    std::array<char, 512> buffer;
    const ssize_t count = ::read(descriptor_.get(), buffer.data(), buffer.size());
    if (count > 0)
        return {.outcome = LinkOutcome::done,
                .bytes = std::string(buffer.data(), static_cast<std::size_t>(count))};
    // Ready to be read and nothing there: the other end has hung up.
    if (count == 0 || is_loss(errno)) return {.outcome = lost(), .bytes = {}};
    if (is_not_yet(errno)) return {.outcome = LinkOutcome::timeout, .bytes = {}};
    throw TransportError(fmt::format("reading from the meter failed: {}; open the port again",
                                     std::generic_category().message(errno)));
}

LinkOutcome DescriptorTransport::write(std::string_view bytes) {
    while (!bytes.empty()) {
        if (!descriptor_.is_open()) return LinkOutcome::unplugged;
        if (!wait_for(descriptor_.get(), POLLOUT, longest_write)) return lost();
        const ssize_t count = write_some(descriptor_.get(), bytes);
        if (count > 0) {
            bytes.remove_prefix(static_cast<std::size_t>(count));
        } else if (count < 0 && is_loss(errno)) {
            return lost();
        } else if (count < 0 && !is_not_yet(errno)) {
            throw TransportError(fmt::format("writing to the meter failed: {}; open the port again",
                                             std::generic_category().message(errno)));
        }
    }
    return descriptor_.is_open() ? LinkOutcome::done : LinkOutcome::unplugged;
}

} // namespace coilward
