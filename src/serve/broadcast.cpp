#include "serve/broadcast.h"

namespace coilward {

std::optional<std::string> Subscription::next(std::chrono::milliseconds at_most) {
    std::unique_lock lock(mutex_);
    came_.wait_for(lock, at_most, [&] { return over_ || !waiting_.empty(); });
    if (over_ || waiting_.empty()) return std::nullopt;
    std::string event = std::move(waiting_.front());
    waiting_.pop_front();
    return event;
}

bool Subscription::over() const {
    const std::lock_guard lock(mutex_);
    return over_;
}

void Subscription::offer(const std::string& event) {
    const std::lock_guard lock(mutex_);
    if (waiting_.size() >= longest) {
        over_ = true;
        waiting_.clear();
    }
    if (!over_) waiting_.push_back(event);
    came_.notify_one();
}

void Subscription::end() {
    const std::lock_guard lock(mutex_);
    over_ = true;
    came_.notify_one();
}

void Broadcast::forget_those_that_left() {
    listeners_.remove_if([](const auto& listener) {
        const auto there = listener.lock();
        return !there || there->over();
    });
}

std::shared_ptr<Subscription> Broadcast::subscribe() {
    const std::lock_guard lock(mutex_);
    forget_those_that_left();
    if (ended_ || listeners_.size() >= most_listeners) return nullptr;
    auto subscription = std::make_shared<Subscription>();
    listeners_.push_back(subscription);
    return subscription;
}

void Broadcast::publish(const std::string& name, const std::string& data) {
    const std::string event = stream_event(name, data);
    const std::lock_guard lock(mutex_);
    for (const auto& listener : listeners_)
        if (const auto there = listener.lock()) there->offer(event);
}

void Broadcast::end() {
    const std::lock_guard lock(mutex_);
    ended_ = true;
    for (const auto& listener : listeners_)
        if (const auto there = listener.lock()) there->end();
}

std::size_t Broadcast::listeners() {
    const std::lock_guard lock(mutex_);
    forget_those_that_left();
    return listeners_.size();
}

std::string stream_event(const std::string& name, const std::string& data) {
    return "event: " + name + "\ndata: " + data + "\n\n";
}

} // namespace coilward
