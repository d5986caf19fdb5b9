#pragma once

#include <chrono>
#include <condition_variable>
#include <deque>
#include <list>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

namespace coilward {

/// One listener's share of a Broadcast.
class Subscription {
public:
    /// The next event; nothing where none came in that time or the subscription is over.
    std::optional<std::string> next(std::chrono::milliseconds at_most);

    /// True once the listener was too slow, or the broadcast ended.
    bool over() const;

private:
    friend class Broadcast;

    static constexpr std::size_t longest = 256; ///< events that may wait

    void offer(const std::string& event);
    void end();

    mutable std::mutex mutex_;
    std::condition_variable came_;
    std::deque<std::string> waiting_;
    bool over_ = false;
};

/// Hands events to any number of listeners, and waits for none: one that lets too many wait is dropped.
class Broadcast {
public:
    /// Nothing where so many listen already that no more are served.
    std::shared_ptr<Subscription> subscribe();

    /// An event of the stream: its name and its data, which is one line.
    void publish(const std::string& name, const std::string& data);

    /// Ends every subscription, and those to come.
    void end();

    /// How many listen now.
    std::size_t listeners();

private:
    static constexpr std::size_t most_listeners = 256;

    void forget_those_that_left();

    std::mutex mutex_;
    std::list<std::weak_ptr<Subscription>> listeners_;
    bool ended_ = false;
};

/// An event as it travels (HTML Living Standard, 9.2.5).
std::string stream_event(const std::string& name, const std::string& data);

} // namespace coilward
