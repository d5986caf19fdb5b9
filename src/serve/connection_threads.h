#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

#include <httplib.h>

namespace coilward {

/// A thread for each connection that is open at the same time, made when it is needed and then kept; beyond
/// the greatest number connections wait their turn. Live streams stay open for hours, and must not keep
/// requests waiting.
class ConnectionThreads : public httplib::TaskQueue {
public:
    /// So many threads at most.
    explicit ConnectionThreads(std::size_t most) : most_(most) {}

    /// Serves the connection as soon as a thread is free.
    void enqueue(std::function<void()> connection) override;

    /// Waits until all that were taken in are served, those that wait among them.
    void shutdown() override;

private:
    void serve();

    std::size_t most_;
    std::mutex mutex_;
    std::condition_variable came_;
    std::deque<std::function<void()>> waiting_;
    std::vector<std::thread> threads_;
    std::size_t idle_ = 0;
    bool over_ = false;
};

} // namespace coilward
