// The capture reader (docs/captures.md): what is accepted says the same once it was written again, and
// replays every byte.

#include "bench/capture.h"
#include "bench/replay_transport.h"
#include "require.h"

#include <memory>
#include <optional>

using namespace coilward;

namespace {

std::optional<Capture> accepted(const std::string& text) {
    try {
        return capture_from_text(text, "fuzzed.capture");
    } catch (const BadCapture& refusal) {
        require_one_line(refusal.what());
        return std::nullopt;
    }
}

void require_same(const Capture& read, const Capture& written) {
    const auto text = [&] { return to_text(read); };
    require(text() == to_text(written), "a capture is written as it was read", text);
    require(read.driver == written.driver && read.title == written.title && read.began == written.began &&
                read.starts_mid_frame == written.starts_mid_frame && read.provenance == written.provenance &&
                read.also == written.also,
            "the headings survive", text);
    require(read.events.size() == written.events.size(), "the events survive", text);
    for (std::size_t i = 0; i < read.events.size(); ++i)
        require(read.events[i].at == written.events[i].at && read.events[i].kind == written.events[i].kind &&
                    read.events[i].bytes == written.events[i].bytes,
                "every event survives", text);
}

/// Sends what the host sent, and reads what the meter sent behind it.
void require_replay(const Capture& capture) {
    const auto clock = std::make_shared<ReplayClock>(capture.began);
    ReplayTransport transport(capture, clock);
    std::string wanted;
    std::string got;
    const auto text = [&] { return to_text(capture); };
    for (const CaptureEvent& event : capture.events) {
        if (event.kind == CaptureEvent::Kind::sent) transport.write(event.bytes);
        if (event.kind != CaptureEvent::Kind::received) continue;
        wanted += event.bytes;
        while (got.size() < wanted.size()) {
            const Received received = transport.read(std::chrono::hours(24));
            if (received.outcome == LinkOutcome::timeout) continue;
            require(received.outcome == LinkOutcome::done, "a replay goes on to the last byte", text);
            got += received.bytes;
        }
    }
    require(got == wanted, "a replay gives the bytes of its capture", text);
    require(clock->now() >= capture.began, "a replay's clock goes forward");
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto read = accepted(text_of_input(data, size));
    if (!read) return 0;
    const auto written = accepted(to_text(*read));
    require(written.has_value(), "what was accepted is accepted again", [&] { return to_text(*read); });
    require_same(*read, *written);
    require_replay(*read);
    return 0;
}
