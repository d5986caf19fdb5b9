#include "bench/play.h"

#include "bench/replay_transport.h"

#include <memory>

namespace coilward {

WatchEnd play(const Driver& driver, const Capture& capture,
              const std::function<void(const StampedReading&)>& each, const std::function<bool()>& stop) {
    const auto clock = std::make_shared<ReplayClock>(capture.began);
    MeterSession session(driver, {.transport = std::make_unique<ReplayTransport>(capture, clock),
                                  .clock = clock,
                                  .recorded_request = capture.request});
    WatchOrder order;
    order.request = capture.request;
    order.stop = stop;
    // Longer than any silence that the capture can hold; what is left then waits for what was never sent.
    order.patience = std::chrono::minutes(1);
    if (!capture.events.empty()) order.patience += capture.events.back().at;
    return watch(session, order, each);
}

} // namespace coilward
