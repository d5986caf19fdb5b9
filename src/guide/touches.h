#pragma once

#include "bench/polarity_kick.h"
#include "guide/person.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// What the touches of one kick test came to.
struct KickTest {
    std::optional<Kick> agreed; ///< the sign of three touches, or Outcome::none after as many without a kick
    std::vector<StampedReading> raw; ///< all that were read meanwhile
    std::string trouble;             ///< why there is neither, and what to do; empty where there is
    bool link_over = false;          ///< the meter was lost, or its recording ended
};

/// Watches a multimeter that is set to DC volts while the person touches a pole, says when to touch and what
/// came, and ends when three touches agree, after three without any kick, after eight, or where
/// the person does not wait any longer. The meter must be prepared. Which sign is as it should be, it does
/// not know. Throws TransportError.
KickTest watch_touches(MeterSession&, Person&, std::chrono::milliseconds patience);

/// A sign in words: "positive in three touches, 40 mV at most".
std::string kick_in_words(const Kick&);

} // namespace coilward
