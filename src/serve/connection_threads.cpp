#include "serve/connection_threads.h"

namespace coilward {

void ConnectionThreads::enqueue(std::function<void()> connection) {
    const std::lock_guard lock(mutex_);
    waiting_.push_back(std::move(connection));
    if (idle_ < waiting_.size() && threads_.size() < most_) threads_.emplace_back([this] { serve(); });
    came_.notify_one();
}

void ConnectionThreads::serve() {
    std::unique_lock lock(mutex_);
    for (;;) {
        ++idle_;
        came_.wait(lock, [&] { return over_ || !waiting_.empty(); });
        --idle_;
        if (waiting_.empty()) return;
        const auto connection = std::move(waiting_.front());
        waiting_.pop_front();
        lock.unlock();
        connection();
        lock.lock();
    }
}

void ConnectionThreads::shutdown() {
    {
        const std::lock_guard lock(mutex_);
        over_ = true;
    }
    came_.notify_all();
    for (std::thread& thread : threads_)
        thread.join();
}

} // namespace coilward
