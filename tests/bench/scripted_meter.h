#pragma once

#include "bench/port.h"

#include <deque>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace coilward {

/// Time that a test moves.
class TestClock : public Clock {
public:
    Moment now() const override { return Moment{std::chrono::hours(24 * 365 * 56)} + elapsed_; }

    std::chrono::milliseconds elapsed() const override { return elapsed_; }

    void wait(std::chrono::milliseconds time) override { elapsed_ += time; }

private:
    std::chrono::milliseconds elapsed_{0};
};

/// A meter in the test's own hand: answers each command as it is told, at once or never, and may be pulled.
struct Script {
    std::function<std::string(const std::string& command)> answer = [](const std::string&) { return ""; };
    std::deque<std::string> pieces;    ///< what the next reads give, one each
    std::vector<std::string> commands; ///< what was written
    bool pulled = false;               ///< once the pieces are used up
};

class ScriptedTransport : public Transport {
public:
    ScriptedTransport(std::shared_ptr<Script> script, std::shared_ptr<TestClock> clock,
                      bool starts_at_a_frame)
        : script_(std::move(script)), clock_(std::move(clock)), starts_at_a_frame_(starts_at_a_frame) {}

    Received read(std::chrono::milliseconds at_most) override {
        if (script_->pieces.empty()) {
            if (script_->pulled) return {.outcome = LinkOutcome::unplugged, .bytes = {}};
            clock_->wait(at_most);
            return {.outcome = LinkOutcome::timeout, .bytes = {}};
        }
        Received received{.outcome = LinkOutcome::done, .bytes = script_->pieces.front()};
        script_->pieces.pop_front();
        return received;
    }

    LinkOutcome write(std::string_view bytes) override {
        if (script_->pulled && script_->pieces.empty()) return LinkOutcome::unplugged;
        script_->commands.emplace_back(bytes);
        if (const std::string reply = script_->answer(std::string(bytes)); !reply.empty())
            script_->pieces.push_back(reply);
        return LinkOutcome::done;
    }

    bool starts_at_a_frame() const override { return starts_at_a_frame_; }

private:
    std::shared_ptr<Script> script_;
    std::shared_ptr<TestClock> clock_;
    bool starts_at_a_frame_;
};

inline Link scripted_link(const std::shared_ptr<Script>& script, bool starts_at_a_frame = true) {
    auto clock = std::make_shared<TestClock>();
    return {.transport = std::make_unique<ScriptedTransport>(script, clock, starts_at_a_frame),
            .clock = clock,
            .recorded_request = {}};
}

} // namespace coilward
