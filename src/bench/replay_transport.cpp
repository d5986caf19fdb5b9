#include "bench/replay_transport.h"

#include <algorithm>

namespace coilward {
namespace {

using std::chrono::milliseconds;
using Kind = CaptureEvent::Kind;

/// Terminators are the driver's affair and may have changed since the capture was made.
std::string_view without_terminator(std::string_view command) {
    const std::size_t last = command.find_last_not_of("\r\n");
    return command.substr(0, last == std::string_view::npos ? 0 : last + 1);
}

} // namespace

ReplayTransport::ReplayTransport(Capture capture, std::shared_ptr<ReplayClock> clock, Chunking chunking)
    : capture_(std::move(capture)), clock_(std::move(clock)), chunking_(std::move(chunking)) {}

Received ReplayTransport::read(milliseconds at_most) {
    const auto& events = capture_.events;
    const auto gives = [](const CaptureEvent& event) { return event.kind != Kind::sent; };
    if (std::none_of(events.begin() + static_cast<std::ptrdiff_t>(next_), events.end(), gives))
        return {.outcome = LinkOutcome::ended, .bytes = {}};
    const CaptureEvent& event = events[next_];
    const milliseconds until = clock_->elapsed() + at_most;
    if (event.kind == Kind::sent || event.at > until) {
        clock_->reach(until);
        return {.outcome = LinkOutcome::timeout, .bytes = {}};
    }
    clock_->reach(event.at);
    if (event.kind == Kind::unplugged) return {.outcome = LinkOutcome::unplugged, .bytes = {}};
    const std::size_t waiting = event.bytes.size() - given_;
    const std::size_t count = chunking_ ? std::clamp<std::size_t>(chunking_(waiting), 1, waiting) : waiting;
    Received received{.outcome = LinkOutcome::done, .bytes = event.bytes.substr(given_, count)};
    given_ += count;
    if (given_ == event.bytes.size()) {
        ++next_;
        given_ = 0;
    }
    return received;
}

LinkOutcome ReplayTransport::write(std::string_view bytes) {
    for (std::size_t i = next_; i < capture_.events.size(); ++i) {
        const CaptureEvent& event = capture_.events[i];
        if (event.kind == Kind::unplugged) break;
        if (event.kind != Kind::sent || without_terminator(event.bytes) != without_terminator(bytes))
            continue;
        next_ = i + 1;
        given_ = 0;
        clock_->reach(event.at);
        break;
    }
    return LinkOutcome::done;
}

} // namespace coilward
