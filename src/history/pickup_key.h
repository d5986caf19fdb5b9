#pragma once

#include "history/history.h"

namespace coilward {

/// The words name no pickup, or more than one. One line, with the candidates.
struct BadPickupKey : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// "Bridge, red guitar" → "bridge-red-guitar": A–Z in lower case, every run of other ASCII characters one
/// dash, letters beyond ASCII as they are.
std::string slug_of(std::string_view name);

/// The one pickup that a person means: by its number, by its name (whole, as a slug), or by a beginning of
/// its slug that no other pickup shares. Throws BadPickupKey, HistoryError.
Pickup pickup_named(const History&, std::string_view key);

} // namespace coilward
