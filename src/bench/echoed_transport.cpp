#include "bench/echoed_transport.h"

#include <utility>

namespace coilward {
namespace {

constexpr std::chrono::milliseconds echo_within{100};
constexpr int tries = 4;
constexpr int most_reads = 20; ///< of other bytes, before an echo

} // namespace

EchoedTransport::EchoedTransport(std::unique_ptr<Transport> line) : line_(std::move(line)) {}

Received EchoedTransport::read(std::chrono::milliseconds at_most) {
    if (waiting_.empty()) return line_->read(at_most);
    return {.outcome = LinkOutcome::done, .bytes = std::exchange(waiting_, {})};
}

LinkOutcome EchoedTransport::write(std::string_view bytes) {
    for (const char character : bytes) {
        const LinkOutcome outcome = send_until_echoed(character);
        if (outcome == LinkOutcome::timeout) return line_->write(bytes.substr(bytes.size() - 1));
        if (outcome != LinkOutcome::done) return outcome;
    }
    return LinkOutcome::done;
}

/// `timeout` where no echo came.
LinkOutcome EchoedTransport::send_until_echoed(char character) {
    LinkOutcome outcome = LinkOutcome::timeout;
    for (int turn = 0; turn < tries && outcome == LinkOutcome::timeout; ++turn) {
        outcome = line_->write({&character, 1});
        if (outcome == LinkOutcome::done) outcome = await_echo(character);
    }
    return outcome;
}

LinkOutcome EchoedTransport::await_echo(char character) {
    for (int reads = 0; reads < most_reads; ++reads) {
        const Received received = line_->read(echo_within);
        if (received.outcome != LinkOutcome::done) return received.outcome;
        const std::size_t at = received.bytes.find(character);
        if (at == std::string::npos) {
            waiting_ += received.bytes;
            continue;
        }
        waiting_ += received.bytes.substr(0, at) + received.bytes.substr(at + 1);
        return LinkOutcome::done;
    }
    return LinkOutcome::timeout;
}

} // namespace coilward
