#include "bench/settling.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace coilward {
namespace {

/// A meter that says its own frequency says 1 kHz for what it makes as 999.6 Hz.
constexpr double same_frequency = 0.02;

bool same_within(double a, double b, double relative) {
    return std::abs(a - b) <= relative * std::abs(b);
}

/// True where the reading is one of those that the request brings: a meter that is set by hand may show
/// another.
bool is_asked_for(const Reading& reading, const MeasurementRequest& request,
                  const std::vector<Quantity>& wanted) {
    if (std::ranges::find(wanted, reading.quantity) == wanted.end()) return false;
    if (request.circuit && reading.circuit && reading.circuit != request.circuit) return false;
    if (!request.frequency_hz || !reading.frequency_hz) return true;
    return same_within(*reading.frequency_hz, *request.frequency_hz, same_frequency);
}

/// The quantities as the request calls them, the requested one first.
std::vector<Quantity> quantities_of(const MeterSetup& setup, const MeasurementRequest& request) {
    std::vector<Quantity> quantities;
    for (const Quantity quantity : setup.gives) {
        Reading reading;
        reading.quantity = quantity;
        quantities.push_back(as_requested(reading, request).quantity);
    }
    const auto first = std::ranges::find(quantities, request.quantity);
    if (first != quantities.end()) std::rotate(quantities.begin(), first, first + 1);
    return quantities;
}

} // namespace

Measured measure(MeterSession& session, const MeasurementRequest& request, const SettlingRule& rule,
                 std::chrono::milliseconds patience, const std::function<void(const StampedReading&)>& each) {
    const auto wanted = quantities_of(session.prepare(request), request);
    std::map<Quantity, Settling> settling;
    std::map<Quantity, Reading> settled;
    Measured measured;
    auto last = session.clock().elapsed();
    while (settled.size() < wanted.size() && !measured.silent && !measured.over) {
        const auto left = patience - (session.clock().elapsed() - last);
        const SessionEvent event = session.next(std::max(left, std::chrono::milliseconds(0)));
        if (std::holds_alternative<Silence>(event)) measured.silent = true;
        if (const auto* over = std::get_if<LinkOver>(&event)) measured.over = over->outcome;
        const auto* stamped = std::get_if<StampedReading>(&event);
        if (!stamped) continue;
        each(*stamped);
        const Quantity quantity = stamped->reading.quantity;
        if (!is_asked_for(stamped->reading, request, wanted)) {
            measured.other = stamped->reading;
            continue;
        }
        last = session.clock().elapsed();
        measured.raw.push_back(*stamped);
        if (settled.contains(quantity)) continue;
        if (auto reading = settling.try_emplace(quantity, rule).first->second.offer(*stamped))
            settled.emplace(quantity, std::move(*reading));
    }
    for (const Quantity quantity : wanted)
        if (const auto found = settled.find(quantity); found != settled.end())
            measured.readings.push_back(found->second);
    return measured;
}

} // namespace coilward
