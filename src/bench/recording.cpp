#include "bench/recording.h"

#include <fstream>
#include <utility>

#include <fmt/format.h>

namespace coilward {
namespace {

class RecordingTransport : public Transport {
public:
    RecordingTransport(std::unique_ptr<Transport> inner, std::shared_ptr<Clock> clock, std::ofstream out,
                       std::string file)
        : inner_(std::move(inner)), clock_(std::move(clock)), began_(clock_->elapsed()), out_(std::move(out)),
          file_(std::move(file)) {}

    Received read(std::chrono::milliseconds at_most) override {
        Received received = inner_->read(at_most);
        if (received.outcome == LinkOutcome::done) keep(CaptureEvent::Kind::received, received.bytes);
        if (received.outcome == LinkOutcome::unplugged) keep_loss();
        return received;
    }

    LinkOutcome write(std::string_view bytes) override {
        keep(CaptureEvent::Kind::sent, std::string(bytes));
        const LinkOutcome outcome = inner_->write(bytes);
        if (outcome == LinkOutcome::unplugged) keep_loss();
        return outcome;
    }

    bool starts_at_a_frame() const override { return inner_->starts_at_a_frame(); }

private:
    void keep(CaptureEvent::Kind kind, std::string bytes) {
        out_ << to_text(CaptureEvent{clock_->elapsed() - began_, kind, std::move(bytes)}) << '\n'
             << std::flush;
        if (!out_)
            throw TransportError(fmt::format("{}: the capture cannot be written; is the disk full?", file_));
    }

    void keep_loss() {
        if (!lost_) keep(CaptureEvent::Kind::unplugged, {});
        lost_ = true;
    }

    std::unique_ptr<Transport> inner_;
    std::shared_ptr<Clock> clock_;
    std::chrono::milliseconds began_;
    std::ofstream out_;
    std::string file_;
    bool lost_ = false;
};

} // namespace

Link recording(Link link, Capture head, const std::filesystem::path& file) {
    if (std::filesystem::exists(file))
        throw TransportError(
            fmt::format("{}: this file exists already; name another for the capture", file.string()));
    std::ofstream out(file, std::ios::binary);
    head.began = link.clock->now();
    head.events.clear();
    head.starts_mid_frame = !link.transport->starts_at_a_frame();
    out << to_text(head) << std::flush;
    if (!out)
        throw TransportError(
            fmt::format("{}: the capture cannot be written; check its folder", file.string()));
    link.transport = std::make_unique<RecordingTransport>(std::move(link.transport), link.clock,
                                                          std::move(out), file.string());
    return link;
}

} // namespace coilward
