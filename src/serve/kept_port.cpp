#include "serve/kept_port.h"

namespace coilward {

/// The line as one conversation has it.
class KeptPort::Lease : public Transport {
public:
    explicit Lease(std::shared_ptr<Line> line)
        : line_(std::move(line)), fresh_(!std::exchange(line_->used, true)) {}

    Received read(std::chrono::milliseconds at_most) override {
        if (line_->lost) return {.outcome = LinkOutcome::unplugged};
        Received received = line_->link.transport->read(at_most);
        note(received.outcome);
        return received;
    }

    LinkOutcome write(std::string_view bytes) override {
        if (line_->lost) return LinkOutcome::unplugged;
        const LinkOutcome outcome = line_->link.transport->write(bytes);
        note(outcome);
        return outcome;
    }

    bool starts_at_a_frame() const override { return fresh_ && line_->link.transport->starts_at_a_frame(); }

private:
    void note(LinkOutcome outcome) {
        if (outcome == LinkOutcome::unplugged || outcome == LinkOutcome::ended) line_->lost = true;
    }

    std::shared_ptr<Line> line_;
    bool fresh_;
};

Link KeptPort::lend() {
    if (!line_ || line_->lost) {
        if (line_) line_->link.transport.reset(); // a terminal device is opened by one at a time
        line_ = std::make_shared<Line>(Line{.link = open_()});
    }
    return {.transport = std::make_unique<Lease>(line_),
            .clock = line_->link.clock,
            .recorded_request = line_->link.recorded_request};
}

} // namespace coilward
