#pragma once

#include "bench/capture.h"
#include "bench/meter_session.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>

namespace coilward {

/// A meter at hand. The driver must outlive it.
struct BenchMeter {
    const Driver* driver = nullptr;        ///< set by bench_meter()
    std::string port;                      ///< as the history keeps it
    std::function<Link()> open;            ///< also opens it anew after it was lost; throws TransportError
    std::optional<Capture> replay;         ///< the recording that `open` plays; absent for a live meter
    std::unique_ptr<MeterSession> session; ///< nullptr before its first use, and after it was lost
    bool given_up = false;                 ///< silent or gone, and nobody could help

    /// The conversation, which begins with its first use. Throws TransportError, or BadCapture for a replay.
    MeterSession& conversation();
};

/// The meter of that driver behind the port. Throws BadCapture.
BenchMeter bench_meter(const Driver&, const Port&, const std::string& port_text);

} // namespace coilward
