#include "diagnosis/search_start.h"

#include "diagnosis/model_error.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace coilward {
namespace {

// Resonances as parts of the reading's frequency: two on each side, since from far away a search may be lost
// as well.
constexpr double parts[] = {0.6, 0.8, 1.25, 1.6};

double greatest_frequency_hz(const Evidence& evidence) {
    double greatest = 0.0;
    for (const Probe& probe : evidence.probes)
        if (probe.port == CoilPort::leads) greatest = std::max(greatest, probe.frequency_hz);
    return greatest;
}

/// With the self-capacitance C = 1 / (ω² L) of a coil that resonates at this frequency.
Values resonating_at(Values values, double frequency_hz) {
    const double log_henry = 2.0 * at(values, Unknown::turns) + at(values, Unknown::henry_per_turn2);
    const double log_omega = std::log(2.0 * std::numbers::pi * frequency_hz);
    at(values, Unknown::self_capacitance) =
        -2.0 * log_omega - log_henry - at(values, Unknown::self_capacitance_factor);
    return values;
}

} // namespace

bool may_be_near_resonance(const Evidence& evidence) {
    return greatest_frequency_hz(evidence) >= high_frequency_hz;
}

std::vector<Values> beside_resonance(std::vector<Values> starts, const Evidence& evidence) {
    if (!may_be_near_resonance(evidence)) return starts;
    const double frequency_hz = greatest_frequency_hz(evidence);
    const std::vector<Values> plain = starts;
    for (const double part : parts)
        for (const Values& start : plain)
            starts.push_back(resonating_at(start, part * frequency_hz));
    return starts;
}

} // namespace coilward
