#pragma once

#include "rewind/confirmation.h"

#include <string>
#include <vector>

namespace coilward {

/// How a rewind is to be confirmed, as a person types it; what is empty is not said.
struct ConfirmationWords {
    std::string coil;                ///< which one, where the pickup has several
    std::vector<std::string> limits; ///< of an order: "dc_resistance=5.9k..6.4k", "inductance@1kHz=2.2..2.5"
    std::string as_it_was;           ///< within so many per cent of what it was, in place of the coil model
    std::string turns;               ///< what the counter said
    std::string temperature;         ///< where nobody read one: "21.5±0.5"
    std::string least_insulation = "10M"; ///< to the frame
    double probability = 0.95;            ///< that guards each limit, 0.5 to below 1
};

/// Confirms the latest visit of the pickup, which has one, against its order, its own past or its coil model.
/// An order's limits take the place of others for the same quantity. Throws BadWords, HistoryError, and
/// std::invalid_argument as conformity() does.
Confirmation confirm(const ConfirmationWords&, const History&, const Pickup&, const Rules&);

} // namespace coilward
