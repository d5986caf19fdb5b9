#pragma once

#include "bench/settling.h"

namespace coilward {

/// Sees from the readings alone when the probes were put on: the display moves away from what it showed
/// before, and comes to rest at a number. What does not move, as over-range on a broken coil, is for the
/// person to take.
class TakeBySettling {
public:
    /// Readings of another quantity are passed over.
    explicit TakeBySettling(Quantity wanted) : wanted_(wanted) {}

    /// Takes one more reading; true once they moved and stand still.
    bool offer(const StampedReading&);

private:
    bool moved_from_first(const Reading&) const;

    Quantity wanted_;
    std::optional<Reading> first_;
    bool moved_ = false;
    Settling settling_{{.readings = 2, .give_up_after = std::chrono::hours(24)}};
};

} // namespace coilward
