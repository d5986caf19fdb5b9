#include "serve/take_by_settling.h"

#include <cmath>

namespace coilward {
namespace {

/// Own choice: wider than any settling drift, narrower than what touching a coil's leads does.
constexpr double moved_by = 0.1;

} // namespace

bool TakeBySettling::moved_from_first(const Reading& reading) const {
    if (reading.state != first_->state) return true;
    if (!reading.value || !first_->value) return false;
    return std::abs(*reading.value - *first_->value) > moved_by * std::abs(*first_->value);
}

bool TakeBySettling::offer(const StampedReading& stamped) {
    const Reading& reading = stamped.reading;
    // A resistance to the frame is read as a plain one before it is named.
    const bool same = reading.quantity == wanted_ || (wanted_ == Quantity::insulation_resistance &&
                                                      reading.quantity == Quantity::dc_resistance);
    if (!same) return false;
    if (!first_) first_ = reading;
    moved_ = moved_ || moved_from_first(reading);
    if (!moved_ || reading.state != State::ok) return false;
    const auto settled = settling_.offer(stamped);
    return settled && settled->state == State::ok;
}

} // namespace coilward
