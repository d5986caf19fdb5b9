#pragma once

#include "bench/meter_session.h"

#include <chrono>
#include <functional>
#include <optional>
#include <vector>

namespace coilward {

/// When a reading counts as having stopped moving.
struct SettlingRule {
    std::size_t readings = 4; ///< that must agree in a row
    double steps = 2.0;       ///< half-width that they may span, in steps of the last digit...
    double relative = 5e-4;   ///< ...or as a part of their mean, whichever is more
    std::chrono::milliseconds give_up_after{8000}; ///< from the first one on: then it is `unstable`
    /// At least so long it is watched, and all readings meanwhile must agree: for a contact that is moved.
    std::chrono::milliseconds watch_for{0};
};

/// Watches the readings of one question until they have settled: the mean with its scatter (standard
/// deviation of the mean, JCGM 100:2008, 4.2.3; none where the meter's own uncertainty is not known), a state
/// that stays, or State::unstable with the half-width of the wander, as a bad contact gives.
class Settling {
public:
    /// Begins with the first reading that is offered.
    explicit Settling(SettlingRule rule = {}) : rule_(rule) {}

    /// Takes one more reading. Gives the settled one as soon as there is one, and then begins anew.
    std::optional<Reading> offer(const StampedReading&);

private:
    SettlingRule rule_;
    std::optional<Moment> began_;
    std::vector<StampedReading> recent_;
};

/// What one request gave.
struct Measured {
    std::vector<Reading> readings; ///< settled: the requested one first, then what the meter shows beside it
    std::vector<StampedReading> raw; ///< all that were taken on the way
    std::optional<Reading>
        other; ///< the last one that was not what was asked for: the meter is set otherwise
    std::optional<LinkOutcome> over; ///< set where the link ended before the readings had settled
    bool silent = false;             ///< no reading that was asked for came within `patience`
};

/// Prepares the session for the request and reads until everything has settled. A meter that is set by hand
/// must be set already: see MeterSetup::by_hand of setup_for(). Throws CannotMeasure where the meter cannot
/// do it, and TransportError. `each` hears every reading as it comes.
Measured measure(
    MeterSession&, const MeasurementRequest&, const SettlingRule& = {},
    std::chrono::milliseconds patience = std::chrono::seconds(10),
    const std::function<void(const StampedReading&)>& each = [](const StampedReading&) {});

} // namespace coilward
