#pragma once

#include "bench/capture.h"
#include "bench/clock.h"
#include "bench/transport.h"

#include <chrono>
#include <functional>
#include <memory>

namespace coilward {

/// Time as a capture tells it: it stands still until the replay moves it.
class ReplayClock : public Clock {
public:
    /// The moment at which nothing has elapsed.
    explicit ReplayClock(Moment began) : began_(began) {}

    Moment now() const override { return began_ + elapsed_; }

    std::chrono::milliseconds elapsed() const override { return elapsed_; }

    void wait(std::chrono::milliseconds time) override { elapsed_ += time; }

    /// Time is now at least that far from the beginning; it never steps back.
    void reach(std::chrono::milliseconds time) { elapsed_ = std::max(elapsed_, time); }

private:
    Moment began_;
    std::chrono::milliseconds elapsed_{0};
};

/// How many bytes of what is waiting one read gives; at least one.
using Chunking = std::function<std::size_t(std::size_t waiting)>;

/// Plays a capture's meter. A read gives what the meter sent next, at its time, as long as the host's own
/// sends in the capture have been sent; a write moves past the same send in the capture, from wherever the
/// replay is. A write that the capture does not hold gets no answer. Takes no real time.
class ReplayTransport : public Transport {
public:
    /// The clock is moved to each event that is read. Without a chunking a read gives all that an event has.
    ReplayTransport(Capture, std::shared_ptr<ReplayClock>, Chunking = {});

    Received read(std::chrono::milliseconds at_most) override;
    LinkOutcome write(std::string_view bytes) override;

    bool starts_at_a_frame() const override { return !capture_.starts_mid_frame; }

private:
    Capture capture_;
    std::shared_ptr<ReplayClock> clock_;
    Chunking chunking_;
    std::size_t next_ = 0;  ///< event
    std::size_t given_ = 0; ///< bytes of that event already read
};

} // namespace coilward
